import type { Bar, Score } from '../music/index.ts';
import { CannotDo, WrongUse } from './failures.ts';
import { listed } from './say.ts';

/** Bars that stand one after the other, both ends included. */
export interface BarChoice {
  readonly first: Bar;
  readonly last: Bar;
}

type Found = { readonly bar: Bar } | { readonly problem: string };

const placeOf = ({ ordinal }: Bar): string => `#${ordinal}`;

function findBar(bars: readonly Bar[], text: string): Found {
  if (/^#\d+$/.test(text)) {
    const bar = bars[Number(text.slice(1)) - 1];
    return bar === undefined ? { problem: `there is no bar ${text}; the score has ${bars.length}` } : { bar };
  }
  const [bar, ...others] = bars.filter(({ label }) => label === text);
  if (bar === undefined) {
    const ends = [...new Set([bars[0], bars.at(-1)].map((end) => end?.label))].join(' to ');
    return { problem: `no bar has the printed number ${text}; the printed numbers go from ${ends}` };
  }
  if (others.length === 0) return { bar };
  const places = listed([bar, ...others].map(placeOf));
  return {
    problem: `the printed number ${text} stands on ${others.length + 1} bars; say which by its place, one of ${places}`,
  };
}

/** Every way to read a text as `A-B`; printed numbers may hold a hyphen themselves. */
function waysToCut(text: string): readonly (readonly [string, string])[] {
  const cuts = [...text.matchAll(/-/g)].map(({ index }) => index);
  return [
    [text, text] as const,
    ...cuts.map((at) => [text.slice(0, at).trim(), text.slice(at + 1).trim()] as const),
  ].filter(([first, last]) => first !== '' && last !== '');
}

/** The bars that `A` or `A-B` names: printed numbers, or places as `#12`. **Errors** `WrongUse` where it is no such text, `CannotDo` where the score has no such bars or a printed number is not alone. */
export function chosenBars(score: Pick<Score, 'bars'>, text: string): BarChoice {
  const ways = waysToCut(text.trim());
  if (ways.length === 0) throw new WrongUse(`--bars is ${text}; it must be as 5, 5-8 or "#12-#15".`);
  const found = ways.map(([first, last]) => [findBar(score.bars, first), findBar(score.bars, last)] as const);
  for (const [first, last] of found) {
    if (!('bar' in first) || !('bar' in last)) continue;
    if (last.bar.ordinal < first.bar.ordinal)
      throw new CannotDo(
        `--bars ${text}: bar ${placeOf(last.bar)} comes before bar ${placeOf(first.bar)}. Nothing was written.`,
      );
    return { first: first.bar, last: last.bar };
  }
  const problems = (found.at(-1) ?? []).flatMap((end) => ('problem' in end ? [end.problem] : []));
  throw new CannotDo(`--bars ${text}: ${listed([...new Set(problems)])}. Nothing was written.`);
}
