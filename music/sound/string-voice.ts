import { exactPow } from '../basis/exact-math.ts';
import type { Instrument, Stroke } from '../perform/performance.ts';
import { fillPluck, type PluckDesign } from './excitation.ts';
import { stringCharacters, type StringCharacter } from './instruments.data.ts';
import { gainOfDb, hertzOfMidi } from './level.ts';
import { Noise } from './noise.ts';
import { StringLoop, type LoopDesign } from './string-loop.ts';
import type { Voice } from './voice.ts';

const fullLevel = 0.24;
/** High notes are played a little louder than low ones, so that both are heard as equal: an exponent, about 196 Hz. */
const balance = 0.25;
const balancedHertz = 196;
const inaudible = 1.5e-5;
const attackSeconds = 0.0006;
const secondDetune = 1.0004;
const peakCeiling = 0.9;

/** Space for shaping one period, shared by all strings of an engine. */
export interface PluckSpace {
  readonly shape: Float64Array;
  readonly scratch: Float64Array;
}

interface StrokeCharacter {
  readonly ring: number;
  readonly bright: number;
  readonly finger: number;
  readonly level: number;
  readonly position: number;
}

/** How a stroke changes the string: factors, except `position`, which is added. From memory, no source. */
const strokeCharacters: Readonly<Record<Stroke, StrokeCharacter>> = {
  pluck: { ring: 1, bright: 1, finger: 1, level: 1, position: 0 },
  legato: { ring: 1, bright: 0.9, finger: 0.6, level: 0.85, position: 0.12 },
  palmMute: { ring: 0.07, bright: 0.25, finger: 0.55, level: 1, position: -0.04 },
  harmonic: { ring: 1, bright: 0.7, finger: 0.5, level: 0.8, position: 0.3 },
  dead: { ring: 0.02, bright: 0.1, finger: 0.7, level: 0.9, position: 0 },
};

/** A plucked string of two polarisations, the second of which dies sooner. */
export class StringVoice implements Voice {
  isActive = false;
  readonly isThroughBody = true;
  private readonly sampleRate: number;
  private readonly space: PluckSpace;
  private readonly main: StringLoop;
  private readonly second: StringLoop;
  private readonly noise = new Noise();
  private readonly loopDesign: LoopDesign = { hertz: 110, ringSeconds: 1, brightSeconds: 1 };
  private readonly pluckDesign: PluckDesign = {
    periodSamples: 100,
    position: 0.2,
    touchSamples: 10,
    slopeTurn: 0.01,
    fingerTurn: 0.1,
    noise: 0,
    level: 0.1,
  };
  private hertz = 110;
  private mainGain = 0.7;
  private secondGain = 0.3;
  private attackLeft = 0;
  private age = 0;

  constructor(sampleRate: number, space: PluckSpace) {
    this.sampleRate = sampleRate;
    this.space = space;
    this.main = new StringLoop(sampleRate);
    this.second = new StringLoop(sampleRate);
  }

  /** Plucks the string. **Units** MIDI note number; strength 0 to 1; `gain` a factor on the sound alone. */
  start(
    instrument: Exclude<Instrument, 'hum'>,
    stroke: Stroke,
    midi: number,
    strength: number,
    seed: number,
    gain: number,
  ): void {
    const character = stringCharacters[instrument];
    this.hertz = hertzOfMidi(midi);
    this.noise.reseed(seed);
    this.tuneLoops(character, strokeCharacters[stroke]);
    this.pluck(character, strokeCharacters[stroke], strength);
    this.mainGain = character.mainShare * gain;
    this.secondGain = (1 - character.mainShare) * gain;
    this.attackLeft = Math.round(attackSeconds * this.sampleRate);
    this.age = 0;
    this.isActive = true;
  }

  private tuneLoops(character: StringCharacter, stroke: StrokeCharacter): void {
    const ring = character.ringSeconds * exactPow(110 / this.hertz, character.shortening) * stroke.ring;
    const design = this.loopDesign;
    design.hertz = this.hertz;
    design.ringSeconds = ring;
    design.brightSeconds = Math.min(ring * 0.9, character.brightSeconds * stroke.bright);
    this.main.tune(design);
    design.hertz = this.hertz * secondDetune;
    design.ringSeconds = ring * character.secondDecay;
    design.brightSeconds = Math.min(ring * 0.9, character.brightSeconds * stroke.bright) * character.secondDecay;
    this.second.tune(design);
  }

  private pluck(character: StringCharacter, stroke: StrokeCharacter, strength: number): void {
    const design = this.pluckDesign;
    design.periodSamples = this.sampleRate / this.hertz;
    design.position = Math.min(0.48, character.position + stroke.position);
    design.touchSamples = character.touchSeconds * (1.6 - strength) * this.sampleRate;
    design.slopeTurn = (this.hertz * (0.6 + strength)) / this.sampleRate;
    design.fingerTurn =
      (character.fingerHertz * stroke.finger * (0.12 + strength * strength) + this.hertz) / this.sampleRate;
    design.noise = character.noise;
    design.level =
      fullLevel *
      strength *
      strength *
      stroke.level *
      gainOfDb(character.levelDb) *
      exactPow(this.hertz / balancedHertz, balance);
    const { shape, scratch } = this.space;
    const length = this.main.length;
    fillPluck(shape, scratch, length, design, this.noise);
    let peak = 0;
    for (let index = 0; index < length; index += 1) peak = Math.max(peak, Math.abs(shape[index] as number));
    const gain = peak > peakCeiling ? peakCeiling / peak : 1;
    this.fillLoop(this.main, length, gain);
    this.fillLoop(this.second, length, gain);
  }

  private fillLoop(loop: StringLoop, length: number, gain: number): void {
    const { shape } = this.space;
    for (let index = 0; index < loop.length; index += 1) loop.delay[index] = (shape[index % length] as number) * gain;
  }

  render(out: Float32Array, from: number, to: number): void {
    let at = from;
    if (this.attackLeft > 0) at = this.renderAttack(out, from, to);
    this.main.render(out, at, to, this.mainGain);
    this.second.render(out, at, to, this.secondGain);
    this.age += to - from;
    if (this.age >= 4096) {
      this.age = 0;
      if (this.main.peak() < inaudible && this.second.peak() < inaudible) this.isActive = false;
    }
  }

  /** A short rise, so that a pluck begins without a step. */
  private renderAttack(out: Float32Array, from: number, to: number): number {
    const whole = Math.round(attackSeconds * this.sampleRate);
    let at = from;
    for (; at < to && this.attackLeft > 0; at += 1) {
      const rise = 1 - this.attackLeft / whole;
      this.main.render(out, at, at + 1, this.mainGain * rise);
      this.second.render(out, at, at + 1, this.secondGain * rise);
      this.attackLeft -= 1;
    }
    return at;
  }

  release(seconds: number): void {
    this.main.damp(this.hertz, seconds);
    this.second.damp(this.hertz, seconds);
  }

  cut(): void {
    this.isActive = false;
  }
}
