import {
  degreeOf,
  degreeText,
  keyAt,
  nameOf,
  solfaOf,
  wordsOfVerse,
  type NoteId,
  type Score,
  type SoundingNote,
} from '../../../music/index.ts';
import type { LabelKind } from '../../lib/own-singing.ts';

/** The labels of a score's notes. */
export interface NoteLabels {
  readonly kind: LabelKind;
  readonly texts: ReadonlyMap<NoteId, string>;
}

/** What is wanted at the notes; of several verses the first, where none is named. */
interface WantedLabels {
  readonly labels: LabelKind;
  readonly verse: string | null;
}

type LabelledScore = Pick<Score, 'notes' | 'bars' | 'keyChanges' | 'lyrics'>;

function textOf(note: SoundingNote, score: LabelledScore, kind: Exclude<LabelKind, 'words' | 'none'>): string | null {
  if (note.sound.kind === 'hit') return null;
  const { sounding } = note.sound;
  if (kind === 'names') return nameOf(sounding);
  const key = keyAt(score, note.onsetTicks);
  return kind === 'degrees' ? degreeText(degreeOf(sounding, key)) : solfaOf(sounding, key);
}

/** The labels of every note of a score that has one of this kind; names where words are wanted and there are none. */
export function labelsOf(score: LabelledScore, { labels, verse }: WantedLabels): NoteLabels {
  const words = labels === 'words' ? wordsOfVerse(score, verse) : new Map<NoteId, string>();
  const kind = labels === 'words' && words.size === 0 ? 'names' : labels;
  if (kind === 'none') return { kind, texts: new Map() };
  if (kind === 'words') return { kind, texts: words };
  const texts = score.notes.flatMap((note) => {
    const text = textOf(note, score, kind);
    return text === null ? [] : [[note.id, text] as const];
  });
  return { kind, texts: new Map(texts) };
}

/** How a label is said after a note's name; null where it adds nothing. */
export function spokenLabel(kind: LabelKind, text: string): string | null {
  if (kind === 'degrees') return `degree ${text}`;
  if (kind === 'solfa') return text;
  return kind === 'words' ? `“${text}”` : null;
}
