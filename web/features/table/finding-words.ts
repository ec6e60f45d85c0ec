import type { LineFinding, LineFindingCode, Score, Split } from '../../../music/index.ts';
import { momentWords } from './bar-words.ts';

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
