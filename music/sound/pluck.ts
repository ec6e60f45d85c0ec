import { exactPow } from '../basis/exact-math.ts';
import type { EventVoice, Instrument, SoundEvent } from '../perform/performance.ts';
import type { PluckDesign } from './excitation.ts';
import { stringCharacters, strokeCharacters } from './instruments.data.ts';
import { gainOfDb } from './level.ts';
import type { Noise } from './noise.ts';

const fullLevel = 0.24;
/** High notes are played a little louder than low ones, so that both are heard as equal: an exponent, about 196 Hz. */
const balance = 0.25;
const balancedHertz = 196;
const farthestPosition = 0.48;
/** No two plucks are at quite the same place. */
const positionSpread = 0.06;

/** A pitched voice, and what else must be known of an event to sound it. */
export type PitchedVoice = Extract<EventVoice, { readonly kind: 'pitched' }>;
export type VoiceNote = Pick<SoundEvent, 'voice' | 'strength' | 'fret' | 'glide'>;

/** What a voice is played on; a hum is on no string, and none is asked for it. */
export const plucked = ({ instrument }: PitchedVoice): Exclude<Instrument, 'hum'> =>
  instrument === 'hum' ? 'nylon' : instrument;

/** Where the open strings of a guitar usually lie, to guess how much of the string sounds. */
const openMidis = [64, 59, 55, 50, 45, 40] as const;

/** How much shorter than the open string the sounding part is; where the fret is unknown, the nearest open string below is taken. */
function shortening(midi: number, fret: number | null): number {
  const frets = Math.min(24, Math.max(0, fret ?? midi - (openMidis.find((each) => each <= midi) ?? midi)));
  return exactPow(2, frets / 12);
}

/** One pluck after the other, as instrument, stroke, strength and place have it. */
export class Pluck implements PluckDesign {
  periodSamples = 100;
  position = 0.2;
  touchSamples = 10;
  slopeTurn = 0.01;
  fingerTurn = 0.1;
  noise = 0;
  level = 0.1;
  private readonly sampleRate: number;

  constructor(sampleRate: number) {
    this.sampleRate = sampleRate;
  }

  /** Makes ready for a note that sounds at `hertz`. */
  prepare(voice: PitchedVoice, { strength, fret }: VoiceNote, hertz: number, noise: Noise): void {
    const character = stringCharacters[plucked(voice)];
    const stroke = strokeCharacters[voice.stroke];
    const force = strength * strength;
    const place = (character.position + stroke.position) * shortening(voice.midi, fret);
    this.periodSamples = this.sampleRate / hertz;
    this.position = Math.min(farthestPosition, place * (1 + positionSpread * noise.next()));
    this.touchSamples = character.touchSeconds * (1.6 - strength) * this.sampleRate;
    this.slopeTurn = (hertz * (0.5 + 2 * strength)) / this.sampleRate;
    this.fingerTurn = (character.fingerHertz * stroke.finger * (0.05 + force) + 1.5 * hertz) / this.sampleRate;
    this.noise = character.noise * stroke.noise;
    this.level =
      fullLevel * force * stroke.level * gainOfDb(character.levelDb) * exactPow(hertz / balancedHertz, balance);
  }
}
