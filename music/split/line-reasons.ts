import type { LineId, NoteId } from '../basis/ids.ts';
import { activeLines, type LineRole, type Split } from '../operations/split.ts';
import type { Score } from '../score/score.ts';
import { characterOf, rolesOf } from './roles.ts';
import type { VoiceNote } from './voice-note.ts';

/** The role that a line's present notes speak for, and why, in words for the teacher. */
export interface RoleOfNotes {
  readonly role: LineRole;
  readonly reason: string;
}

interface NotesOfLine {
  readonly pitched: VoiceNote[];
  hits: number;
}

function notesByLine(score: Pick<Score, 'notes'>, marks: Split['marks']): ReadonlyMap<LineId, NotesOfLine> {
  const byLine = new Map<LineId, NotesOfLine>();
  const ofLine = (line: LineId): NotesOfLine => {
    const known = byLine.get(line) ?? { pitched: [], hits: 0 };
    byLine.set(line, known);
    return known;
  };
  const linesOf = (note: NoteId): readonly LineId[] => marks.get(note)?.lines ?? [];
  for (const { id, onsetTicks, lengthTicks, sound } of score.notes)
    for (const line of linesOf(id))
      if (sound.kind === 'hit') ofLine(line).hits += 1;
      else ofLine(line).pitched.push({ onsetTicks, lengthTicks, midi: sound.soundingMidi });
  return byLine;
}

/**
 * What each line of a split is by the notes that are on it now, whoever put them there: percussion where it holds hits alone, else by height,
 * activity and movement among the other lines.
 * **Shape** one entry per line that is not retired and has notes.
 */
export function rolesOfLines(
  score: Pick<Score, 'notes'>,
  split: Pick<Split, 'lines' | 'marks'>,
): ReadonlyMap<LineId, RoleOfNotes> {
  const byLine = notesByLine(score, split.marks);
  const held = activeLines(split).flatMap(({ id }) => {
    const notes = byLine.get(id);
    return notes === undefined ? [] : [{ id, notes, character: characterOf(notes.pitched) }];
  });
  const pitched = held
    .filter(({ notes }) => notes.pitched.length > 0)
    .sort((a, b) => b.character.meanMidi - a.character.meanMidi);
  const found = rolesOf(pitched.map(({ character }) => character));
  const hits: RoleOfNotes = { role: 'percussion', reason: 'taps and other hits alone' };
  return new Map([
    ...pitched.map(({ id }, index) => [id, found[index] as RoleOfNotes] as const),
    ...held.filter(({ notes }) => notes.pitched.length === 0).map(({ id }) => [id, hits] as const),
  ]);
}
