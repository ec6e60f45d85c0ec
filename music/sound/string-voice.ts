import { exactPow } from '../basis/exact-math.ts';
import { fillPluck } from './excitation.ts';
import { FingerNoise } from './finger-noise.ts';
import { stringCharacters, strokeCharacters, type StringCharacter, type StrokeCharacter } from './instruments.data.ts';
import { hertzOfMidi, ratioOfCents } from './level.ts';
import { Noise } from './noise.ts';
import { courseStepSamples, PitchCourse } from './pitch-course.ts';
import { Pluck, plucked, type PitchedVoice, type VoiceNote } from './pluck.ts';
import { StringLoop, type LoopDesign } from './string-loop.ts';
import type { Voice } from './voice.ts';

const inaudible = 1.5e-5;
const attackSeconds = 0.0006;
const takeOverSeconds = 0.004;
/** The two polarisations beat slowly; the pitch heard lies between them. */
const detune = 0.00045;
const peakCeiling = 0.9;
const landingShare = 0.03;
const rubShare = 0.05;
/** Strings above this are plain, and a finger slides along them almost unheard. From memory, no source. */
const plainHertz = 190;
const plainRub = 0.3;
const restCheckSamples = 4096;
const slidWithin = 0.012;

/** Space for shaping one period, shared by all strings of an engine. */
export interface PluckSpace {
  readonly shape: Float64Array;
  readonly scratch: Float64Array;
}

/** A plucked string of two polarisations: the louder one gives its force to the body and dies sooner. */
export class StringVoice implements Voice {
  isActive = false;
  bodyShare = 1;
  private readonly sampleRate: number;
  private readonly space: PluckSpace;
  private readonly main: StringLoop;
  private readonly second: StringLoop;
  private readonly noise = new Noise();
  private readonly fingers: FingerNoise;
  private readonly course = new PitchCourse();
  private readonly loopDesign: LoopDesign = { hertz: 110, ringSeconds: 1, brightSeconds: 1, isMoving: false };
  private readonly plucking: Pluck;
  private noteHertz = 110;
  private hertz = 110;
  private mainTune = 1;
  private secondTune = 1;
  private mainGain = 0.7;
  private secondGain = 0.3;
  private isGliding = false;
  private stepLeft = 0;
  private cents = 0;
  private rubLevel = 0;
  private rampSamples = 1;
  private rampLeft = 0;
  private isLeaving = false;
  private age = 0;

  constructor(sampleRate: number, space: PluckSpace) {
    this.sampleRate = sampleRate;
    this.space = space;
    this.main = new StringLoop(sampleRate);
    this.second = new StringLoop(sampleRate);
    this.fingers = new FingerNoise(sampleRate);
    this.plucking = new Pluck(sampleRate);
  }

  /**
   * Plucks the string, or takes over what `before` is doing on it, as when a finger comes down or lifts off. `gain` is
   * a factor on the sound alone.
   */
  start(voice: PitchedVoice, note: VoiceNote, seed: number, gain: number, before: StringVoice | null = null): void {
    const character = stringCharacters[plucked(voice)];
    const stroke = strokeCharacters[voice.stroke];
    this.bodyShare = character.bodyShare;
    this.noise.reseed(seed);
    this.fingers.begin(seed ^ 0x5bd1e995);
    this.course.begin(note.glide);
    this.isGliding = this.course.moves;
    this.stepLeft = 0;
    this.noteHertz = hertzOfMidi(voice.midi);
    this.cents = this.course.advance(0);
    this.hertz = this.noteHertz * ratioOfCents(this.cents);
    this.share(character, gain);
    this.tuneLoops(character, stroke);
    this.plucking.prepare(voice, note, this.hertz, this.noise);
    this.rubLevel = rubShare * this.plucking.level * gain * (this.noteHertz > plainHertz ? plainRub : 1);
    if (before === null) this.pluck();
    else this.takeOver(before);
    this.ramp(before === null ? attackSeconds : takeOverSeconds, false);
    this.age = 0;
    this.isActive = true;
  }

  /** Where its pitch is at present. */
  get soundingHertz(): number {
    return this.hertz;
  }

  /** No two plucks go in quite the same direction. */
  private share(character: StringCharacter, gain: number): void {
    const mainShare = character.mainShare + 0.05 * this.noise.next();
    this.mainTune = 1 - detune * (1 - mainShare);
    this.secondTune = 1 + detune * mainShare;
    this.mainGain = mainShare * gain;
    this.secondGain = (1 - mainShare) * gain;
  }

  private tuneLoops(character: StringCharacter, stroke: StrokeCharacter): void {
    const ring = character.ringSeconds * exactPow(110 / this.hertz, character.shortening) * stroke.ring;
    const bright = Math.min(ring * 0.9, character.brightSeconds * stroke.bright);
    const design = this.loopDesign;
    design.isMoving = this.isGliding;
    design.hertz = this.hertz * this.mainTune;
    design.ringSeconds = ring;
    design.brightSeconds = bright;
    this.main.tune(design);
    design.hertz = this.hertz * this.secondTune;
    design.ringSeconds = ring * character.secondRing;
    design.brightSeconds = bright * character.secondRing;
    this.second.tune(design);
  }

  private pluck(): void {
    const { shape, scratch } = this.space;
    const count = this.main.shapeSamples;
    fillPluck(shape, scratch, count, this.plucking, this.noise);
    const gain = gainUnderCeiling(shape, count);
    this.main.fill(shape, count, gain);
    this.second.fill(shape, count, gain);
  }

  /**
   * Keeps what the string does, no louder than a stroke of this strength; only what is missing is added, and nothing
   * where a finger has slid to this very pitch.
   */
  private takeOver(before: StringVoice): void {
    const { shape, scratch } = this.space;
    const isSlid = Math.abs(before.hertz / this.hertz - 1) < slidWithin;
    const wanted = this.plucking.level;
    const mainCount = this.main.shapeSamples;
    before.main.copyPeriodTo(this.main, scratch);
    const found = rootMeanSquare(scratch, mainCount);
    const kept = found > wanted ? wanted / found : 1;
    const missing = Math.max(0, wanted * wanted - found * found * kept * kept);
    this.plucking.level = isSlid ? 0 : Math.sqrt(missing);
    fillPluck(shape, scratch, mainCount, this.plucking, this.noise);
    this.mixIn(this.main, before.main, kept);
    this.mixIn(this.second, before.second, kept);
    before.leave();
  }

  private mixIn(loop: StringLoop, before: StringLoop, kept: number): void {
    const { shape, scratch } = this.space;
    const count = loop.shapeSamples;
    before.copyPeriodTo(loop, scratch);
    for (let index = 0; index < count; index += 1)
      scratch[index] =
        (scratch[index] as number) * kept + (shape[Math.min(index, this.main.shapeSamples - 1)] as number);
    loop.fill(scratch, count, gainUnderCeiling(scratch, count));
  }

  /** Another voice has taken over: it ends while that one begins. */
  private leave(): void {
    this.ramp(takeOverSeconds, true);
  }

  private ramp(seconds: number, isLeaving: boolean): void {
    this.rampSamples = this.rampLeft = Math.round(seconds * this.sampleRate);
    this.isLeaving = isLeaving;
  }

  render(out: Float32Array, from: number, to: number, rate: number): void {
    let at = from;
    while (this.isGliding && at < to) {
      if (this.stepLeft === 0) this.aim(rate);
      const until = Math.min(to, at + this.stepLeft);
      this.renderPart(out, at, until);
      this.stepLeft -= until - at;
      at = until;
      if (this.stepLeft === 0 && this.course.hasArrived) this.arrive();
    }
    if (at < to) this.renderPart(out, at, to);
    this.fingers.render(out, from, to);
    this.age += to - from;
    if (this.age >= restCheckSamples) {
      this.age = 0;
      if (this.main.peak() < inaudible && this.second.peak() < inaudible) this.isActive = false;
    }
  }

  private aim(rate: number): void {
    const seconds = courseStepSamples / this.sampleRate;
    const cents = this.course.advance(seconds * rate);
    this.fingers.rub(Math.abs(cents - this.cents) / seconds, this.rubLevel);
    this.cents = cents;
    this.hertz = this.noteHertz * ratioOfCents(cents);
    this.main.aim(this.hertz * this.mainTune, courseStepSamples);
    this.second.aim(this.hertz * this.secondTune, courseStepSamples);
    this.stepLeft = courseStepSamples;
  }

  private arrive(): void {
    this.isGliding = false;
    this.main.hold();
    this.second.hold();
    this.fingers.rub(0, 0);
  }

  private renderPart(out: Float32Array, from: number, to: number): void {
    let at = from;
    for (; at < to && this.rampLeft > 0; at += 1) this.renderRamp(out, at);
    if (!this.isActive) return;
    this.main.render(out, at, to, this.mainGain);
    this.second.render(out, at, to, this.secondGain);
  }

  /** A short rise, so that a pluck begins without a step; or a short fall. */
  private renderRamp(out: Float32Array, at: number): void {
    const left = this.rampLeft / this.rampSamples;
    const gain = this.isLeaving ? left : 1 - left;
    this.main.render(out, at, at + 1, this.mainGain * gain);
    this.second.render(out, at, at + 1, this.secondGain * gain);
    this.rampLeft -= 1;
    if (this.isLeaving && this.rampLeft === 0) this.isActive = false;
  }

  release(seconds: number): void {
    this.main.damp(this.hertz, seconds);
    this.second.damp(this.hertz, seconds);
    this.fingers.land(landingShare * this.main.peak() * (this.mainGain + this.secondGain));
  }
}

function rootMeanSquare(shape: Float64Array, count: number): number {
  let energy = 0;
  for (let index = 0; index < count; index += 1) energy += (shape[index] as number) * (shape[index] as number);
  return Math.sqrt(energy / count);
}

function gainUnderCeiling(shape: Float64Array, count: number): number {
  let peak = 0;
  for (let index = 0; index < count; index += 1) peak = Math.max(peak, Math.abs(shape[index] as number));
  return peak > peakCeiling ? peakCeiling / peak : 1;
}
