import { expect, it } from 'vitest';
import { rms } from '../../tests/support/least-squares.ts';
import type { Tuning } from '../score/score.ts';
import { dbOfGain, hertzOfMidi } from './level.ts';
import { SympatheticStrings } from './sympathetic-strings.ts';

const sampleRate = 48_000;
const second = sampleRate;

/** The level of what open strings still sound after half a second of a tone. */
function answerDb(strings: SympatheticStrings, midi: number): number {
  const tone = Float32Array.from({ length: second }, (_, index) =>
    index < second / 2 ? 0.1 * Math.sin((2 * Math.PI * hertzOfMidi(midi) * index) / sampleRate) : 0,
  );
  const out = new Float32Array(second);
  strings.render(tone, out, second);
  return dbOfGain(rms(out.subarray(0.6 * second)));
}

const tuned = (tuning: Tuning | null): SympatheticStrings => {
  const strings = new SympatheticStrings(sampleRate);
  strings.tune(tuning);
  return strings;
};
const droppedC = [62, 57, 53, 48, 43, 36];

it('[R54] answers what the open strings are tuned to, E2 in the usual tuning and C2 where all are dropped', () => {
  expect(answerDb(tuned(null), 40)).toBeGreaterThan(answerDb(tuned(droppedC), 40) + 12);
  expect(answerDb(tuned(droppedC), 36)).toBeGreaterThan(answerDb(tuned(null), 36) + 12);
});

it('is as new once it is tuned as usual again, and goes on where nothing changes', () => {
  const strings = tuned(droppedC);
  strings.tune(null);
  expect(answerDb(strings, 40)).toBe(answerDb(tuned(null), 40));
  const ringing = tuned(null);
  answerDb(ringing, 40);
  ringing.tune([64, 59, 55, 50, 45, 40]);
  const out = new Float32Array(256);
  ringing.render(new Float32Array(256), out, 256);
  expect(rms(out)).toBeGreaterThan(0);
});
