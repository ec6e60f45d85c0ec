import { describe, expect, it } from 'vitest';
import { PitchDetector } from 'pitchy';
import { rms } from '../../tests/support/least-squares.ts';
import { blockSamples } from './channel.ts';
import { SoundEngine } from './engine.ts';
import { hertzOfMidi } from './level.ts';

const sampleRate = 48_000;

/** What the engine gives for some seconds. */
function heard(engine: SoundEngine, seconds: number): Float32Array {
  const blocks = Math.round((seconds * sampleRate) / blockSamples);
  const left = new Float32Array(blocks * blockSamples);
  const right = new Float32Array(blockSamples);
  for (let block = 0; block < blocks; block += 1)
    engine.process(left.subarray(block * blockSamples, (block + 1) * blockSamples), right);
  return left;
}

/** By `pitchy` of the npm registry, over a window. **Units** cents from a MIDI note. */
function centsFrom(midi: number, samples: Float32Array): number {
  const size = 8192;
  const [hertz] = PitchDetector.forFloat32Array(size).findPitch(samples.subarray(0, size), sampleRate);
  return 1200 * Math.log2(hertz / hertzOfMidi(midi));
}

describe('a drone', () => {
  it('holds its tone, without anything played, until it is ended', () => {
    const engine = new SoundEngine(sampleRate);
    expect(rms(heard(engine, 0.2))).toBe(0);
    engine.setDrone(57);
    heard(engine, 0.5);
    for (const seconds of [1, 1]) {
      const held = heard(engine, seconds);
      expect(rms(held)).toBeGreaterThan(1e-3);
      expect(Math.abs(centsFrom(57, held))).toBeLessThan(1);
    }
    engine.setDrone(null);
    heard(engine, 3);
    expect(rms(heard(engine, 0.2))).toBeLessThan(1e-5);
  });

  it('goes on when the music stops, and goes over into another tone', () => {
    const engine = new SoundEngine(sampleRate);
    engine.setDrone(57);
    heard(engine, 0.5);
    engine.stop();
    engine.setDrone(60);
    heard(engine, 3);
    const held = heard(engine, 0.3);
    expect(Math.abs(centsFrom(60, held))).toBeLessThan(1);
    expect(rms(held)).toBeGreaterThan(1e-3);
  });
});
