import { likeBars, type Bar, type BarId, type Score } from '../../../music/index.ts';
import { barWords } from '../../engraving/place-words.ts';

/** Where a stretch of a song begins, with what it is called. */
export interface SongSection {
  readonly startBar: BarId;
  readonly name: string;
}

type SectionScore = Pick<Score, 'bars' | 'notes' | 'words'>;

const barName = (bar: Bar): string => (bar.isImplicit && bar.ordinal === 1 ? 'the beginning' : `bar ${barWords(bar)}`);

/** What is printed where a section begins: a rehearsal mark, else words that name one. */
function printedNames({ bars, words }: SectionScore): ReadonlyMap<BarId, string> {
  const names = new Map<BarId, string>();
  for (const printed of words.filter(({ kind }) => kind === 'section')) {
    const bar = bars.findLast(({ onsetTicks }) => onsetTicks <= printed.onsetTicks);
    if (bar !== undefined && printed.text.trim() !== '') names.set(bar.id, printed.text.trim());
  }
  for (const bar of bars) if (bar.rehearsalMark !== null) names.set(bar.id, bar.rehearsalMark);
  return names;
}

const afterRepeats = (bars: readonly Bar[]): readonly Bar[] =>
  bars.filter((bar, index) => bar.startsRepeat || (bars[index - 1]?.repeatTimes ?? 0) > 1);

/** Bars where the opening comes again: the first two whole bars, or bars much like them, in a row. */
function wherePickedUpAgain(score: SectionScore): readonly Bar[] {
  const [first, second] = score.bars.filter(({ isImplicit }) => !isImplicit);
  if (first === undefined || second === undefined) return [];
  const [likeFirst, likeSecond] = [first, second].map(({ id }) => new Set(likeBars(score, id).map(({ bar }) => bar)));
  return score.bars.filter((bar, index) => {
    const next = score.bars[index + 1];
    return next !== undefined && likeFirst?.has(bar.id) === true && likeSecond?.has(next.id) === true;
  });
}

/**
 * A song's sections in order, from its first bar: by rehearsal marks and printed names; where there are none by its
 * repeats; where there are none either by where the opening comes again. `own` are beginnings that a teacher chose.
 */
export function songSections(score: SectionScore, own: readonly BarId[]): readonly SongSection[] {
  const names = printedNames(score);
  const repeated = names.size > 0 ? [] : afterRepeats(score.bars);
  const likened = names.size > 0 || repeated.length > 0 ? [] : wherePickedUpAgain(score);
  const starts = new Set([...names.keys(), ...repeated.map(({ id }) => id), ...likened.map(({ id }) => id), ...own]);
  return score.bars
    .filter((bar, index) => index === 0 || starts.has(bar.id))
    .map((bar) => {
      const name = names.get(bar.id);
      return { startBar: bar.id, name: name === undefined ? `from ${barName(bar)}` : `${name}, from ${barName(bar)}` };
    });
}
