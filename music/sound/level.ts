import { exactExp, exactLog10, exactPow } from '../basis/exact-math.ts';

/** The factor that a level stands for. **Units** decibels. */
export const gainOfDb = (levelDb: number): number => exactPow(10, levelDb / 20);

/** Room for peaks, so that the limiter is at rest in all but the loudest music. **Units** decibels. */
const headroomDb = -4;

/** What everything together is multiplied with before it is limited, at a volume. **Units** decibels. */
export const volumeGainOf = (levelDb: number): number => gainOfDb(levelDb + headroomDb);

/** The level of a factor; −Infinity for 0. **Units** decibels. */
export const dbOfGain = (gain: number): number => (gain <= 0 ? -Infinity : 20 * exactLog10(gain));

/** The frequency of a MIDI note number, A4 (69) being 440 Hz. **Source** MIDI Tuning Standard; ISO 16. */
export const hertzOfMidi = (midi: number): number => 440 * exactPow(2, (midi - 69) / 12);

/** The factor of a frequency that is so many cents away. */
export const ratioOfCents = (cents: number): number => (cents === 0 ? 1 : exactPow(2, cents / 1200));

/** The share of the way that a one-pole smoother goes in one sample, to cover 63 % in `seconds`. */
export const smoothingOf = (seconds: number, sampleRate: number): number => 1 - exactExp(-1 / (seconds * sampleRate));

/** The factor by which something shrinks per sample, to fall by 60 dB in `seconds`. */
export const decayOf = (seconds: number, sampleRate: number): number => exactPow(10, -3 / (seconds * sampleRate));
