import { expect, it } from 'vitest';
import { PieceSink } from './piece-sink.ts';

it('keeps bytes in order over many pieces, lets earlier ones be written over, and hands them out once', () => {
  const sink = new PieceSink();
  const whole = Uint8Array.from({ length: 3_000_000 }, (_, index) => (index * 31) & 255);
  for (let at = 0; at < whole.length; at += 700_001) sink.write(whole.subarray(at, at + 700_001), at);
  const late = Uint8Array.of(1, 2, 3, 4);
  sink.write(late, (1 << 20) - 2);
  whole.set(late, (1 << 20) - 2);
  expect(Buffer.concat([...sink.take()]).equals(whole)).toBe(true);
  expect([...sink.take()]).toEqual([]);
});
