import type { TextLine } from './text-line.ts';

/** A number over a bar that says on which passes it is played. */
export interface EndingSign {
  readonly column: number;
  /** Where the line drawn after it ends. */
  readonly reach: number;
  readonly text: string;
  readonly passes: readonly number[];
}

const sign =
  /\[?(\d(?:\s?[-,&]\s?\d)*)\s?(?:[.)\]:]|(?:st|nd|rd|th)\b)(?:\s?(?:times?|ending)\b)?[.:\]]?([_\-.~= ]*[_\-~=])?/gi;

function passesOf(text: string): number[] {
  const [from = NaN, to = NaN] = text.split('-').map(Number);
  if (text.includes('-')) return to > from ? Array.from({ length: to - from + 1 }, (_, index) => from + index) : [];
  return (text.match(/\d/g) ?? []).map(Number);
}

/** The endings that a line names, if it holds nothing else and begins with the first: `1.____ 2.____`. **Source** common practice, no source. */
export function endingsOf({ text }: TextLine): EndingSign[] | null {
  const signs = [...text.matchAll(sign)].map((match): EndingSign => {
    const [all, numbers = ''] = match;
    return {
      column: match.index,
      reach: match.index + all.length - 1,
      text: all.replace(/[_\-~= ]+$/, ''),
      passes: passesOf(numbers),
    };
  });
  const isAlone = /^[\s|_\-.~=]*$/.test(text.replace(sign, ''));
  const passes = signs.flatMap((one) => one.passes);
  const isAscending = passes.every((pass, index) => index === 0 || pass > (passes[index - 1] ?? 0));
  return isAlone && passes[0] === 1 && isAscending ? signs : null;
}

/** A bar of one ending. */
export interface TabEnding {
  readonly passes: readonly number[];
  readonly text: string;
  readonly isFirst: boolean;
  readonly isLast: boolean;
  /** After it the piece goes on without a repeat. */
  readonly isOpen: boolean;
}

/** A bar over which an ending may begin, and whether a repeat ends with it. */
interface BarUnder {
  readonly sign: EndingSign | null;
  readonly endsRepeat: boolean;
  /** Where it begins and ends in the text's lines. */
  readonly textFrom: number;
}

/** The ending of each bar; null where no ending but the last leads back, so that the numbers mean something else. */
export function endingsOfBars(bars: readonly BarUnder[]): (TabEnding | null)[] | null {
  const starts = bars.flatMap((bar, index) => (bar.sign === null ? [] : [{ index, sign: bar.sign }]));
  const endings: (TabEnding | null)[] = bars.map(() => null);
  let leadsBack = false;
  for (const [place, { index, sign: own }] of starts.entries()) {
    const next = starts[place + 1]?.index;
    const drawn = bars.findLastIndex(({ textFrom }) => textFrom <= own.reach);
    const closing = bars.findIndex(({ endsRepeat }, at) => at >= index && endsRepeat);
    const last = next === undefined ? Math.max(index, drawn, closing) : next - 1;
    const returns = bars[last]?.endsRepeat === true;
    leadsBack ||= returns;
    for (let at = index; at <= last; at += 1)
      endings[at] = {
        passes: own.passes,
        text: own.text,
        isFirst: at === index,
        isLast: at === last,
        isOpen: !returns,
      };
  }
  return leadsBack ? endings : null;
}
