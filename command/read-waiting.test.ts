import { expect, it } from 'vitest';
import { readWaiting } from './read-waiting.ts';

const refusal = (code: string): Error => Object.assign(new Error(code), { code });

function reading(...answers: readonly (number | string)[]): () => number {
  const left = [...answers];
  return () => {
    const answer = left.shift();
    if (typeof answer === 'number') return answer;
    throw refusal(answer ?? 'END');
  };
}

it('asks again where there is nothing yet', () => {
  expect(readWaiting(reading('EAGAIN', 'EAGAIN', 7))).toBe(7);
});

it('passes on what else goes wrong', () => {
  expect(() => readWaiting(reading('EAGAIN', 'EISDIR', 7))).toThrow('EISDIR');
});
