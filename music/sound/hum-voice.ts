import { exactCos, exactPow, exactSin } from '../basis/exact-math.ts';
import { decayOf, hertzOfMidi, ratioOfCents } from './level.ts';
import { courseStepSamples, PitchCourse } from './pitch-course.ts';
import type { PitchedVoice, VoiceNote } from './pluck.ts';
import type { Voice } from './voice.ts';

const mostHarmonics = 14;
const fullLevel = 0.085;
const highestHertz = 5000;
const riseSeconds = 0.05;
const vibrato = { afterSeconds: 0.35, growSeconds: 0.4, hertz: 5.2, depth: 0.004 };

/** Where a closed-mouth hum is strong. From memory, no source. **Units** hertz. */
const formants = [
  { hertz: 300, width: 160, share: 1 },
  { hertz: 900, width: 220, share: 0.22 },
  { hertz: 2400, width: 400, share: 0.05 },
] as const;

function shareOfHarmonic(hertz: number, number: number): number {
  let share = 0.06;
  for (const formant of formants) {
    const distance = (hertz - formant.hertz) / formant.width;
    share += formant.share / Math.sqrt(1 + distance * distance);
  }
  return share / exactPow(number, 1.15);
}

/** A soft hum: harmonics below the hearing limit summed by recurrence, so nothing can alias; a vibrato that comes late. */
export class HumVoice implements Voice {
  isActive = false;
  readonly bodyShare = 0;
  private readonly sampleRate: number;
  private readonly amplitudes = new Float64Array(mostHarmonics);
  private readonly course = new PitchCourse();
  private harmonicCount = 1;
  private hertz = 0;
  private turnsPerSample = 0;
  private turnsStep = 0;
  private stepLeft = 0;
  private phase = 0;
  private age = 0;
  private envelope = 0;
  private releaseFactor = 0;

  private readonly vibratoDepth: number;

  /** `steady` never moves its pitch by itself. */
  constructor(sampleRate: number, manner: 'sung' | 'steady' = 'sung') {
    this.vibratoDepth = manner === 'sung' ? vibrato.depth : 0;
    this.sampleRate = sampleRate;
  }

  /** Begins to hum. */
  start(voice: PitchedVoice, { strength, glide }: VoiceNote, gain: number): void {
    this.course.begin(glide);
    this.hertz = hertzOfMidi(voice.midi);
    this.turnsPerSample = (this.hertz * ratioOfCents(this.course.advance(0))) / this.sampleRate;
    this.shape(gain * fullLevel * (0.2 + 0.8 * strength * strength));
    this.turnsStep = this.stepLeft = this.phase = this.age = this.envelope = this.releaseFactor = 0;
    this.isActive = true;
  }

  private shape(level: number): void {
    const { hertz, amplitudes } = this;
    const limit = Math.min(this.sampleRate * 0.4, highestHertz);
    this.harmonicCount = Math.max(1, Math.min(mostHarmonics, Math.floor(limit / (hertz * 1.02))));
    let energy = 0;
    for (let index = 0; index < this.harmonicCount; index += 1) {
      const share = shareOfHarmonic(hertz * (index + 1), index + 1);
      amplitudes[index] = share;
      energy += (share * share) / 2;
    }
    const factor = level / Math.sqrt(energy);
    for (let index = 0; index < this.harmonicCount; index += 1)
      amplitudes[index] = (amplitudes[index] as number) * factor;
  }

  render(out: Float32Array, from: number, to: number, rate: number): void {
    const rise = 1 / (riseSeconds * this.sampleRate);
    for (let index = from; index < to; index += 1) {
      if (this.stepLeft === 0) this.aim(rate);
      this.stepLeft -= 1;
      this.turnsPerSample += this.turnsStep;
      this.phase += this.turnsPerSample;
      if (this.phase >= 1) this.phase -= 1;
      this.envelope = this.releaseFactor > 0 ? this.envelope * this.releaseFactor : Math.min(1, this.envelope + rise);
      out[index] = (out[index] as number) + this.harmonics() * this.envelope * (2 - this.envelope);
    }
    if (this.releaseFactor > 0 && this.envelope < 1e-4) this.isActive = false;
  }

  /** Where the pitch goes within the next step. */
  private aim(rate: number): void {
    this.age += courseStepSamples;
    const cents = this.course.advance((courseStepSamples * rate) / this.sampleRate);
    const goal = (this.hertz * ratioOfCents(cents) * this.bend()) / this.sampleRate;
    this.turnsStep = (goal - this.turnsPerSample) / courseStepSamples;
    this.stepLeft = courseStepSamples;
  }

  private bend(): number {
    const seconds = this.age / this.sampleRate;
    if (seconds < vibrato.afterSeconds) return 1;
    const depth = this.vibratoDepth * Math.min(1, (seconds - vibrato.afterSeconds) / vibrato.growSeconds);
    return 1 + depth * exactSin(2 * Math.PI * vibrato.hertz * (seconds - vibrato.afterSeconds));
  }

  /** Σ aₕ sin(h·φ) by sin((h+1)φ) = 2 cos φ sin hφ − sin((h−1)φ). */
  private harmonics(): number {
    const angle = 2 * Math.PI * this.phase;
    const twiceCosine = 2 * exactCos(angle);
    let before = 0;
    let sine = exactSin(angle);
    let sum = (this.amplitudes[0] as number) * sine;
    for (let index = 1; index < this.harmonicCount; index += 1) {
      const next = twiceCosine * sine - before;
      sum += (this.amplitudes[index] as number) * next;
      before = sine;
      sine = next;
    }
    return sum;
  }

  release(seconds: number): void {
    this.releaseFactor = decayOf(Math.max(0.06, seconds), this.sampleRate);
  }
}
