import type { SourceNote } from './source.ts';

/** The lowest and the highest note that is arranged for. **Units** MIDI note numbers. */
export interface Range {
  readonly low: number;
  readonly high: number;
}

type Line = readonly SourceNote[];

/** The lines a number of semitones higher. */
export const transposed = (lines: readonly Line[], semitones: number): readonly Line[] =>
  lines.map((line) => line.map((note) => ({ ...note, midi: note.midi + semitones })));
const isWithin = ({ low, high }: Range, { midi }: SourceNote): boolean => midi >= low && midi <= high;
const meanMidi = (line: Line): number => line.reduce((sum, { midi }) => sum + midi, 0) / Math.max(1, line.length);

function shareWithin(lines: readonly Line[], range: Range): number {
  const notes = lines.flat();
  return notes.filter((note) => isWithin(range, note)).length / Math.max(1, notes.length);
}

/** Lines set one by one into registers that lie evenly over the range, each by whole octaves. */
function spread(lines: readonly Line[], { low, high }: Range): readonly Line[] {
  const byPitch = [...lines].sort((a, b) => meanMidi(b) - meanMidi(a));
  const [top, bottom] = [high - 9, low + 7];
  return lines.map((line) => {
    const target = top - ((top - bottom) * byPitch.indexOf(line)) / Math.max(1, lines.length - 1);
    const octaves = Math.round((target - meanMidi(line)) / 12);
    return transposed([line], 12 * octaves)[0] as Line;
  });
}

function folded(note: SourceNote, { low, high }: Range): SourceNote {
  let { midi } = note;
  while (midi > high) midi -= 12;
  while (midi < low) midi += 12;
  return { ...note, midi };
}

/** How much of the music must fit as it stands for its voices to keep their distances. */
const fittingShare = 0.97;

/**
 * The lines moved into a range: together by whole octaves where nearly all fits, else each to a register of its own; what still
 * stands out is folded back by octaves.
 */
export function intoRange(lines: readonly Line[], range: Range): readonly Line[] {
  const together = [-24, -12, 0, 12]
    .map((semitones) => transposed(lines, semitones))
    .reduce((best, each) => (shareWithin(each, range) > shareWithin(best, range) ? each : best));
  const fitting = shareWithin(together, range) >= fittingShare ? together : spread(lines, range);
  return fitting.map((line) => line.map((note) => folded(note, range)));
}
