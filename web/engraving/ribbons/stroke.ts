import { monotoneCurve, type Knot } from './monotone-curve.ts';
import type { StrandNote } from './strands.ts';

/** One cross-section of a ribbon. **Units** pixels. */
export interface Section {
  readonly x: number;
  readonly y: number;
  /** Half the thickness. */
  readonly half: number;
}

/** A ribbon without a cut: from one rest to the next. `firstIndex` counts sections of the common grid from the excerpt's start. */
export interface Run {
  readonly firstIndex: number;
  readonly sections: readonly Section[];
}

/** How music becomes pixels. All ribbons share one grid of cross-sections, so that crossings can be told by index. */
export interface RibbonScale {
  readonly startTicks: number;
  readonly ticksPerSection: number;
  readonly xOfTicks: (ticks: number) => number;
  readonly yOfMidi: (midi: number) => number;
  /** Half the thickness of a ribbon played as loud as can be. */
  readonly fullHalf: number;
  readonly ticksPerQuarter: number;
}

/** Notes that follow each other without a rest. */
export function phrasesOf(notes: readonly StrandNote[]): readonly (readonly StrandNote[])[] {
  const phrases: StrandNote[][] = [];
  for (const note of notes) {
    const phrase = phrases.at(-1);
    if (phrase !== undefined && (phrase.at(-1) as StrandNote).endTicks >= note.startTicks) phrase.push(note);
    else phrases.push([note]);
  }
  return phrases;
}

/** The ribbon over notes without a rest, seen through a window of ticks; it tapers at its own ends, not at the window's. */
export function runOf(
  phrase: readonly StrandNote[],
  scale: RibbonScale,
  window: { readonly startTicks: number; readonly endTicks: number },
): Run | null {
  const first = phrase[0];
  const last = phrase.at(-1);
  if (first === undefined || last === undefined) return null;
  const height = monotoneCurve(heightKnots(phrase, scale));
  const loudness = monotoneCurve(loudnessKnots(phrase));
  const indexOf = (ticks: number) => (ticks - scale.startTicks) / scale.ticksPerSection;
  const from = Math.ceil(indexOf(Math.max(first.startTicks, window.startTicks)));
  const to = Math.floor(indexOf(Math.min(last.endTicks, window.endTicks)));
  const startX = scale.xOfTicks(first.startTicks);
  const endX = scale.xOfTicks(last.endTicks) - 3;
  const sections: Section[] = [];
  for (let index = from; index <= to; index += 1) {
    const ticks = scale.startTicks + index * scale.ticksPerSection;
    const x = scale.xOfTicks(ticks);
    const room = Math.min(x - startX, endX - x);
    if (room < 0) continue;
    sections.push({ x, y: height(ticks), half: scale.fullHalf * loudness(ticks) * roundedEnd(room, scale.fullHalf) });
  }
  return sections.length < 2 ? null : { firstIndex: from, sections };
}

/** Nearly 0 at a ribbon's end, 1 from about its half thickness inwards, round between. */
function roundedEnd(roomPixels: number, fullHalf: number): number {
  const missing = Math.max(0, 1 - roomPixels / (0.85 * fullHalf));
  return Math.max(0.08, Math.sqrt(1 - missing * missing));
}

/** A note's height is reached at its onset and held; the way to the next is short and begins late. */
function heightKnots(phrase: readonly StrandNote[], scale: RibbonScale): readonly Knot[] {
  return phrase.flatMap((note, index) => {
    const value = scale.yOfMidi(note.midi);
    const length = note.endTicks - note.startTicks;
    const way = Math.min(length * 0.62, scale.ticksPerQuarter * 0.8);
    const isLast = index === phrase.length - 1;
    return [
      { at: note.startTicks, value },
      { at: isLast ? note.endTicks : note.endTicks - way, value },
    ];
  });
}

/** Loud where a note is struck, softer as it rings. */
function loudnessKnots(phrase: readonly StrandNote[]): readonly Knot[] {
  return phrase.flatMap((note) => {
    const length = note.endTicks - note.startTicks;
    const full = 0.3 + 0.7 * note.strength;
    return [
      { at: note.startTicks + length * 0.12, value: full },
      { at: note.startTicks + length * 0.9, value: full * 0.62 },
    ];
  });
}

const round = (pixels: number): number => Math.round(pixels * 10) / 10;

/** The points beside a ribbon's middle, `fraction` of its half thickness away plus `extra` pixels; negative is above. */
export function besideMiddle(sections: readonly Section[], fraction: number, extra = 0): readonly string[] {
  return sections.map((section, index) => {
    const before = sections[Math.max(0, index - 1)] as Section;
    const after = sections[Math.min(sections.length - 1, index + 1)] as Section;
    const alongX = after.x - before.x;
    const alongY = after.y - before.y;
    const length = Math.hypot(alongX, alongY) || 1;
    const away = fraction * section.half + Math.sign(fraction) * extra;
    return `${round(section.x - (alongY / length) * away)} ${round(section.y + (alongX / length) * away)}`;
  });
}

/** The closed outline of a ribbon, `extra` pixels wider on both sides. */
export const outlineOf = (sections: readonly Section[], extra = 0): string =>
  `M${besideMiddle(sections, -1, extra).join('L')}L${[...besideMiddle(sections, 1, extra)].reverse().join('L')}Z`;

/** A thread along a ribbon, `fraction` of its half thickness from the middle. */
export const threadOf = (sections: readonly Section[], fraction: number): string =>
  `M${besideMiddle(sections, fraction).join('L')}`;

/** Both long edges of a ribbon, its ends left open. */
export const edgesOf = (sections: readonly Section[]): string => threadOf(sections, -1) + threadOf(sections, 1);
