import {
  activeLines,
  type Bar,
  type Line,
  type NoteId,
  type Score,
  type SoundingNote,
  type Split,
} from '../../../music/index.ts';
import { threadPath, type ThreadPoint } from '../../engraving/thread-curve.ts';

/** How the song strip is laid out. **Units** pixels. */
export interface StripFrame {
  readonly width: number;
  /** Room left and right, so that first and last pins are whole. */
  readonly margin: number;
  readonly top: number;
  readonly bottom: number;
}

/** One line of the song's braid: a path for each stretch in which it does not rest for a whole bar. */
export interface BraidStrand {
  readonly line: Line;
  readonly paths: readonly string[];
}

const lengthOf = (bars: readonly Bar[]): number => {
  const last = bars.at(-1);
  return last === undefined ? 1 : last.onsetTicks + last.lengthTicks;
};

/** Where a moment of the song stands on the strip. */
export const stripX = (bars: readonly Bar[], frame: StripFrame, ticks: number): number =>
  frame.margin + ((frame.width - 2 * frame.margin) * ticks) / lengthOf(bars);

/** The bar that lies under a place of the strip. */
export function barAtStripX(bars: readonly Bar[], frame: StripFrame, x: number): Bar | undefined {
  const ticks = ((x - frame.margin) / (frame.width - 2 * frame.margin)) * lengthOf(bars);
  return bars.findLast((bar) => bar.onsetTicks <= ticks) ?? bars[0];
}

/** Every line's way through the song: its middle height bar by bar, on one axis for all, so that lines lie where they sound. */
export function braidOf(score: Pick<Score, 'bars' | 'notes'>, split: Split, frame: StripFrame): readonly BraidStrand[] {
  const lines = activeLines(split).map((line) => ({
    line,
    heights: heightsOf(score, notesOfLine(score.notes, split, line)),
  }));
  const all = lines.flatMap(({ heights }) => heights.filter((height) => typeof height === 'number'));
  const low = Math.min(...all);
  const high = Math.max(...all, low + 1);
  const floor = lines.some(({ heights }) => heights.includes('hit')) ? frame.bottom - 8 : frame.bottom - 2;
  const yOf = (midi: number): number => floor - ((floor - frame.top) * (midi - low)) / (high - low);
  return lines.map(({ line, heights }) => {
    const points = score.bars.map((bar, index) => pointOf(score.bars, frame, bar, heights[index], yOf));
    return { line, paths: stretches(points).map(threadPath) };
  });
}

const notesOfLine = (notes: readonly SoundingNote[], split: Split, line: Line): readonly SoundingNote[] =>
  notes.filter((note) => split.marks.get(note.id)?.lines.includes(line.id) ?? false);

type Height = number | 'hit' | null;

function heightsOf(score: Pick<Score, 'bars'>, notes: readonly SoundingNote[]): readonly Height[] {
  const byBar = new Map<string, SoundingNote[]>();
  for (const note of notes) byBar.set(note.bar, [...(byBar.get(note.bar) ?? []), note]);
  return score.bars.map((bar) => {
    const here = byBar.get(bar.id) ?? [];
    const midis = here.flatMap((note) => (note.sound.kind === 'pitched' ? [note.sound.soundingMidi] : []));
    if (midis.length > 0) return midis.reduce((sum, midi) => sum + midi, 0) / midis.length;
    return here.length > 0 ? 'hit' : null;
  });
}

function pointOf(
  bars: readonly Bar[],
  frame: StripFrame,
  bar: Bar,
  height: Height | undefined,
  yOf: (midi: number) => number,
): ThreadPoint | null {
  if (height === null || height === undefined) return null;
  return {
    x: stripX(bars, frame, bar.onsetTicks + bar.lengthTicks / 2),
    y: height === 'hit' ? frame.bottom - 2 : yOf(height),
  };
}

function stretches(points: readonly (ThreadPoint | null)[]): readonly (readonly ThreadPoint[])[] {
  const found: ThreadPoint[][] = [];
  let current: ThreadPoint[] = [];
  for (const point of [...points, null]) {
    if (point !== null) current.push(point);
    else if (current.length > 0) {
      found.push(widened(current));
      current = [];
    }
  }
  return found;
}

const widened = (points: readonly ThreadPoint[]): ThreadPoint[] => {
  const first = points[0] as ThreadPoint;
  const last = points.at(-1) as ThreadPoint;
  return [{ x: first.x - 5, y: first.y }, ...points, { x: last.x + 5, y: last.y }];
};

/** Every how many bars the strip names one, so that names do not touch. */
export function barNameStep(barCount: number, width: number): number {
  const room = width / Math.max(1, barCount);
  return [1, 2, 4, 8, 16, 32, 64].find((step) => step * room >= 34) ?? 128;
}

/** The bars that some notes stand in, each once, in order. */
export function barsWithNotes(score: Pick<Score, 'bars' | 'notes'>, notes: Iterable<NoteId>): readonly Bar[] {
  const wanted = new Set(notes);
  const ids = new Set(score.notes.filter((note) => wanted.has(note.id)).map((note) => note.bar));
  return score.bars.filter((bar) => ids.has(bar.id));
}
