import {
  degreeOf,
  degreeText,
  keyAt,
  nameOf,
  solfaOf,
  type Lyric,
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

type LabelledScore = Pick<Score, 'notes' | 'bars' | 'keyChanges' | 'lyrics'>;

/** Whether some note of a score is sung to words. */
export const hasWords = ({ lyrics, notes }: Pick<Score, 'lyrics' | 'notes'>): boolean => {
  const known = new Set(notes.map(({ id }) => id));
  return lyrics.some(({ note, text }) => known.has(note) && text.trim() !== '');
};

/** The words of the first verse that a note has, a hyphen where the word goes on. */
function wordsOf(lyrics: readonly Lyric[]): ReadonlyMap<NoteId, string> {
  const verses = [...new Set(lyrics.map(({ verse }) => verse))].sort((a, b) =>
    a.localeCompare(b, 'en', { numeric: true }),
  );
  const words = new Map<NoteId, string>();
  for (const verse of verses)
    for (const { note, text, syllabic, verse: own } of lyrics) {
      if (own !== verse || words.has(note) || text.trim() === '') continue;
      words.set(note, syllabic === 'begin' || syllabic === 'middle' ? `${text}-` : text);
    }
  return words;
}

function textOf(note: SoundingNote, score: LabelledScore, kind: Exclude<LabelKind, 'words' | 'none'>): string | null {
  if (note.sound.kind === 'hit') return null;
  const { sounding } = note.sound;
  if (kind === 'names') return nameOf(sounding);
  const key = keyAt(score, note.onsetTicks);
  return kind === 'degrees' ? degreeText(degreeOf(sounding, key)) : solfaOf(sounding, key);
}

/** The labels of every note of a score that has one of this kind; names where words are wanted and there are none. */
export function labelsOf(score: LabelledScore, wanted: LabelKind): NoteLabels {
  const kind = wanted === 'words' && !hasWords(score) ? 'names' : wanted;
  if (kind === 'none') return { kind, texts: new Map() };
  if (kind === 'words') return { kind, texts: wordsOf(score.lyrics) };
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
