import type { LineId, NoteId } from '../basis/ids.ts';
import type { IssuePlace } from '../basis/issue.ts';
import { activeLines, type Line, type Split } from '../operations/split.ts';
import type { Score, SoundingNote } from '../score/score.ts';
import { crossingsOf } from './crossings.ts';
import { lineNotes } from './line-notes.ts';
import { momentsOf } from './moments.ts';
import { placeOfTicks } from './write-out-issues.ts';

/** What a plain check finds in a split. */
export type LineFindingCode = 'two-at-once' | 'wide-leap' | 'on-no-line' | 'lines-cross';

/** One thing worth a look: nothing is wrong with it for certain. */
export interface LineFinding {
  readonly code: LineFindingCode;
  /** The lines it is about: none for a note on no line, two where lines cross. */
  readonly lines: readonly LineId[];
  readonly notes: readonly NoteId[];
  /** **Units** ticks of the written score. */
  readonly onsetTicks: number;
  readonly where: IssuePlace;
}

/** Two octaves: a wider step within one line is seldom meant. */
const widestLeapSemitones = 24;

/** Whether a line is meant for one voice: an accompaniment may hold chords, and hits may fall together. */
const isOneVoice = ({ role }: Line): boolean => role !== 'accompaniment' && role !== 'percussion';

/** The notes that are on no line, or on retired ones only; in written order. */
export function looseNotes(
  score: Pick<Score, 'notes'>,
  split: Pick<Split, 'lines' | 'marks'>,
): readonly SoundingNote[] {
  const active = new Set(activeLines(split).map(({ id }) => id));
  return score.notes.filter(({ id }) => split.marks.get(id)?.lines.some((line) => active.has(line)) !== true);
}

const soundingMidi = ({ sound }: SoundingNote): number | null => (sound.kind === 'pitched' ? sound.soundingMidi : null);

type Bare = Omit<LineFinding, 'where'>;

function togethers(line: Line, notes: readonly SoundingNote[]): readonly Bare[] {
  return momentsOf(notes)
    .filter((moment) => moment.notes.length > 1)
    .map(({ onsetTicks, notes: together }) => ({
      code: 'two-at-once',
      lines: [line.id],
      notes: together.map(({ id }) => id),
      onsetTicks,
    }));
}

function leaps(line: Line, notes: readonly SoundingNote[]): readonly Bare[] {
  const pitched = notes.filter(({ sound }) => sound.kind === 'pitched');
  return pitched.slice(1).flatMap((note, index): readonly Bare[] => {
    const before = pitched[index];
    const [from, to] = [before === undefined ? null : soundingMidi(before), soundingMidi(note)];
    if (before === undefined || from === null || to === null || before.onsetTicks === note.onsetTicks) return [];
    if (Math.abs(to - from) <= widestLeapSemitones) return [];
    return [{ code: 'wide-leap', lines: [line.id], notes: [before.id, note.id], onsetTicks: note.onsetTicks }];
  });
}

function crossings(lines: readonly Line[], notesOf: (line: Line) => readonly SoundingNote[]): readonly Bare[] {
  return lines.flatMap((upper, index) =>
    lines.slice(index + 1).flatMap((lower) =>
      crossingsOf(notesOf(upper), notesOf(lower)).map((crossing): Bare => ({
        code: 'lines-cross',
        lines: [upper.id, lower.id],
        notes: [crossing.upper.id, crossing.lower.id],
        onsetTicks: crossing.onsetTicks,
      })),
    ),
  );
}

/** What is worth a look in a split, in order of time: two notes at once in a line for one voice, leaps over two octaves, notes on no line, lines that cross. Lines count as higher in the order in which they are listed. */
export function checkLines(score: Score, split: Pick<Split, 'lines' | 'marks'>): readonly LineFinding[] {
  const oneVoice = activeLines(split).filter(isOneVoice);
  const byLine = new Map(oneVoice.map((line) => [line.id, lineNotes(score, split, line.id).map(({ note }) => note)]));
  const notesOf = ({ id }: Line): readonly SoundingNote[] => byLine.get(id) ?? [];
  const found: readonly Bare[] = [
    ...oneVoice.flatMap((line) => [...togethers(line, notesOf(line)), ...leaps(line, notesOf(line))]),
    ...looseNotes(score, split).map(({ id, onsetTicks }): Bare => ({
      code: 'on-no-line',
      lines: [],
      notes: [id],
      onsetTicks,
    })),
    ...crossings(oneVoice, notesOf),
  ];
  return found
    .toSorted((left, right) => left.onsetTicks - right.onsetTicks)
    .map((bare) => ({ ...bare, where: placeOfTicks(score, bare.onsetTicks) }));
}
