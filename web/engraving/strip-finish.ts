import type { Bar } from '../../music/index.ts';
import type { DrawnStrip, DrawnSystem } from './geometry.ts';
import { barWords } from './place-words.ts';
import styles from './sheet.module.css';
import { svgElement } from './svg.ts';

/** Centres fret numbers on their places, so that our own face for them stays where the engraver's stood. */
export function finishEngraving(music: HTMLElement): void {
  const digits = [...music.querySelectorAll<SVGTextElement>('.vf-tabnote text')];
  const centres = digits.map((digit) => {
    const rect = digit.previousElementSibling;
    return rect === null ? null : Number(rect.getAttribute('x')) + Number(rect.getAttribute('width')) / 2;
  });
  digits.forEach((digit, index) => {
    const centre = centres[index];
    if (centre !== null && centre !== undefined) digit.setAttribute('x', String(centre));
  });
}

/** From the highest staff line up to the baseline of a bar number; the tip of a bracket needs room too. **Units** pixels. */
const aboveStaff = 7;
const aboveBracket = 15;

/** Several parts may stand under a bracket. */
const hasBracket = ({ staves }: DrawnSystem): boolean => new Set(staves.map(({ part }) => part)).size > 1;

/** Bar numbers at the head of each system, and what a player sets up above the first one of a score. */
export function drawSystemWords(
  drawn: DrawnStrip,
  bars: readonly Bar[],
  before: Bar | null,
  setUp: string,
): readonly SVGElement[] {
  const numbers = drawn.systems.flatMap((system) => {
    const first = system.bars[0];
    const bar = bars.find((candidate) => candidate.id === first?.bar);
    if (first === undefined || bar === undefined || (bar.isImplicit && before === null)) return [];
    const y = system.top - (hasBracket(system) ? aboveBracket : aboveStaff);
    return [svgElement('text', { x: first.left + 2, y, class: styles['barNumber'] ?? '' }, barWords(bar))];
  });
  if (before !== null || setUp === '') return numbers;
  return [svgElement('text', { x: 2, y: 17, class: styles['setUp'] ?? '' }, setUp), ...numbers];
}
