import fc from 'fast-check';
import type { Score } from '../../music/score/score.ts';
import { chord, hit, line, meter, note, rest, voices, type BarPlan, type Item } from './score-builders.ts';

const names = ['C3', 'E3', 'G3', 'C4', 'F#4', 'Bb4', 'D5'];
const plainQuarters = [0.125, 0.25, 0.5, 0.75, 1, 1.5, 2, 3, 4, 6];
/** Groups of lengths that only tuplets can say. */
const groups = [
  [1 / 3, 1 / 3, 1 / 3],
  [2 / 3, 1 / 3],
  [1 / 3, 2 / 3],
  [2 / 3, 2 / 3, 2 / 3],
  [1 / 6, 1 / 6, 1 / 6],
  [0.2, 0.2, 0.2, 0.2, 0.2],
  [4 / 3, 4 / 3, 4 / 3],
  [1 / 7, 2 / 7, 4 / 7],
];

const thing = (quarters: number): fc.Arbitrary<Item> =>
  fc.oneof(
    { weight: 6, arbitrary: fc.constantFrom(...names).map((name) => note(name, quarters)) },
    { weight: 3, arbitrary: fc.constant(rest(quarters)) },
    { weight: 1, arbitrary: fc.constant(chord(['C4', 'E4'], quarters)) },
    { weight: 1, arbitrary: fc.constant(hit(quarters)) },
  );

const run: fc.Arbitrary<readonly Item[]> = fc.oneof(
  {
    weight: 3,
    arbitrary: fc
      .constantFrom(...plainQuarters)
      .chain(thing)
      .map((item) => [item]),
  },
  { weight: 1, arbitrary: fc.constantFrom(...groups).chain((group) => fc.tuple(...group.map(thing))) },
);
const anyItems = fc.array(run, { minLength: 1, maxLength: 14 }).map((runs) => runs.flat());

const anyMeter = fc.constantFrom(
  meter(4, 4),
  meter(3, 4),
  meter(2, 4),
  meter(2, 2),
  meter(6, 8),
  meter(9, 8),
  meter(12, 8),
  meter(3, 8),
  meter([3, 2], 8),
  meter(7, 8),
  meter(5, 4),
  meter(6, 4),
  meter(1, 4),
  meter([2, 2, 3], 8),
);
/** Now and then a pickup, a short bar or an overfull one. */
const anyBars = fc.array(
  fc
    .tuple(anyMeter, fc.constantFrom(undefined, undefined, undefined, 1, 1.5, 4.5))
    .map(([barMeter, quarters]): BarPlan => ({ meter: barMeter, ...(quarters === undefined ? {} : { quarters }) })),
  { minLength: 1, maxLength: 5 },
);

/** Any score of one voice, so that nothing in it overlaps. */
export const anyOneVoice: fc.Arbitrary<Score> = fc
  .tuple(anyBars, anyItems)
  .map(([bars, items]) => line(bars, ...items));

/** Any score of two voices that go their own ways. */
export const anyTwoVoices: fc.Arbitrary<Score> = fc
  .tuple(anyBars, anyItems, anyItems)
  .map(([bars, upper, lower]) => voices(bars, upper, lower));
