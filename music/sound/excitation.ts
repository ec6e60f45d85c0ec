import { exactCos, exactExp } from '../basis/exact-math.ts';
import type { Noise } from './noise.ts';

/** How a finger sets one period of a string moving. */
export interface PluckDesign {
  /** One period. **Units** samples. */
  periodSamples: number;
  /** Where along the string it is plucked, as a share of its length from the bridge. */
  position: number;
  /** How long the finger's touch lasts. **Units** samples. */
  touchSamples: number;
  /** Corner frequencies as shares of the sample rate: the string's own slope, and the softness of the finger. */
  slopeTurn: number;
  fingerTurn: number;
  noise: number;
  /** The root mean square of the period that results. */
  level: number;
}

/**
 * Fills `shape` with one period of a plucked string, without a mean: a finger's touch, low-passed in a circle
 * (so that the period closes upon itself), then combed by the place of the pluck.
 * **Source** Jaffe and Smith 1983, pp. 60–63 (pick position, dynamics).
 */
export function fillPluck(
  shape: Float64Array,
  scratch: Float64Array,
  length: number,
  design: PluckDesign,
  noise: Noise,
): void {
  fillTouch(shape, length, design, noise);
  smoothCircle(shape, length, design.slopeTurn);
  smoothCircle(shape, length, design.fingerTurn);
  combCircle(shape, scratch, length, design.position * design.periodSamples);
  normalise(shape, length, design.level);
}

function fillTouch(shape: Float64Array, length: number, design: PluckDesign, noise: Noise): void {
  const touch = Math.max(2, Math.min(length / 2, design.touchSamples));
  const noiseGain = design.noise / Math.sqrt(length);
  for (let index = 0; index < length; index += 1) {
    const pulse = index < touch ? (1 - exactCos((2 * Math.PI * (index + 0.5)) / touch)) / touch : 0;
    shape[index] = pulse + noiseGain * noise.next();
  }
}

/** A finger is wide: the harmonics with a node under it are weak, not absent. */
const combDepth = 0.88;

function smoothCircle(shape: Float64Array, length: number, turn: number): void {
  const pole = exactExp(-2 * Math.PI * Math.min(0.4, turn));
  let state = 0;
  for (let pass = 0; pass < 2; pass += 1) {
    for (let index = 0; index < length; index += 1) {
      state = (1 - pole) * (shape[index] as number) + pole * state;
      if (pass === 1) shape[index] = state;
    }
  }
}

function combCircle(shape: Float64Array, scratch: Float64Array, length: number, distance: number): void {
  const whole = Math.floor(distance);
  const part = distance - whole;
  for (let index = 0; index < length; index += 1) {
    const near = (((index - whole) % length) + length) % length;
    const far = near === 0 ? length - 1 : near - 1;
    const delayed = (1 - part) * (shape[near] as number) + part * (shape[far] as number);
    scratch[index] = (shape[index] as number) - combDepth * delayed;
  }
  for (let index = 0; index < length; index += 1) shape[index] = scratch[index] as number;
}

function normalise(shape: Float64Array, length: number, level: number): void {
  let mean = 0;
  for (let index = 0; index < length; index += 1) mean += (shape[index] as number) / length;
  let energy = 0;
  for (let index = 0; index < length; index += 1) {
    const value = (shape[index] as number) - mean;
    shape[index] = value;
    energy += (value * value) / length;
  }
  const gain = level / Math.sqrt(energy + 1e-24);
  for (let index = 0; index < length; index += 1) shape[index] = (shape[index] as number) * gain;
}
