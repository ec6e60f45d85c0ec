import { fraction, type Bar, type Excerpt, type Score } from '../../music/index.ts';

function barWith(score: Pick<Score, 'bars'>, label: string): Bar {
  const bar = score.bars.find((candidate) => candidate.label === label);
  if (bar === undefined) throw new Error(`The demo's score has no bar ${label}`);
  return bar;
}

/** From a beat of one bar up to a beat of another, beats counted from 1 in quarter notes: phrases begin on upbeats. */
export function phrase(
  score: Pick<Score, 'bars'>,
  from: readonly [string, number],
  to: readonly [string, number],
): Excerpt {
  return {
    from: { bar: barWith(score, from[0]).id, offset: fraction(from[1] - 1) },
    to: { bar: barWith(score, to[0]).id, offset: fraction(to[1] - 1) },
  };
}
