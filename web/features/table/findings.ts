import { checkLines, type LineFinding, type LineFindingCode, type Score, type Split } from '../../../music/index.ts';
import { momentWords } from './bar-words.ts';

/** What the checks find worth a look in a split; notes on no line are counted elsewhere. */
export const findingsOf = (score: Score, split: Split): readonly LineFinding[] =>
  checkLines(score, split).filter(({ code }) => code !== 'on-no-line');

/** The same finding among those of a new split, if it is still one. */
export const stillFound = (findings: readonly LineFinding[], finding: LineFinding | null): LineFinding | null =>
  findings.find(
    ({ code, onsetTicks, lines }) =>
      code === finding?.code && onsetTicks === finding.onsetTicks && lines.join() === finding.lines.join(),
  ) ?? null;

const words: Readonly<Record<LineFindingCode, (names: readonly string[]) => string>> = {
  'two-at-once': ([name = '']) => `two notes at once in ${name}`,
  'wide-leap': ([name = '']) => `${name} leaps over two octaves`,
  'on-no-line': () => 'a note on no line',
  'lines-cross': ([upper = '', lower = '']) => `${upper} goes below ${lower}`,
};

/** A finding as a person would say it: `bar 12, beat 3: two notes at once in bass`. */
export function findingWords(score: Score, split: Pick<Split, 'lines'>, finding: LineFinding): string {
  const names = finding.lines.map((id) => split.lines.find((line) => line.id === id)?.name.toLowerCase() ?? '');
  return `${momentWords(score, finding.onsetTicks)}: ${words[finding.code](names)}`;
}
