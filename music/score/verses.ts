import type { NoteId } from '../basis/ids.ts';
import type { Lyric } from './marks.ts';
import type { Score, SoundingNote } from './score.ts';
import type { WrittenEvent, WrittenLyric } from './written.ts';

const isSaid = ({ text }: Pick<Lyric, 'text'>): boolean => text.trim() !== '';

const isNumber = (verse: string): boolean => /^\d+$/.test(verse);

/** Numbers by their value, names after them as they come. */
function inOrder(left: string, right: string): number {
  if (isNumber(left) && isNumber(right)) return Number(left) - Number(right);
  return Number(isNumber(right)) - Number(isNumber(left));
}

/** The verses that some words are of: numbered ones by their numbers, then those with names in the order in which they come. */
export const versesOf = (lyrics: readonly Pick<Lyric, 'verse' | 'text'>[]): readonly string[] =>
  [...new Set(lyrics.filter(isSaid).map(({ verse }) => verse))].sort(inOrder);

/** The syllables that stand under written events. */
export const lyricsIn = (events: readonly WrittenEvent[]): readonly WrittenLyric[] =>
  events.flatMap(({ heads }) => heads.flatMap(({ details }) => details?.lyrics ?? []));

/** The verse that is sung where these are: the wanted one, else the first, as in a refrain that has its words once. */
export const verseSung = (verses: readonly string[], wanted: string | null): string | undefined =>
  wanted !== null && verses.includes(wanted) ? wanted : verses[0];

/** A syllable as it stands for itself: with a hyphen where its word goes on. */
export const syllableText = ({ text, syllabic }: Pick<Lyric, 'text' | 'syllabic'>): string =>
  syllabic === 'begin' || syllabic === 'middle' ? `${text}-` : text;

/** Where one voice sings one bar. */
const placeOf = ({ bar, voices: [voice] }: SoundingNote): string =>
  `${bar} ${voice?.part ?? ''} ${voice?.staff ?? ''} ${voice?.voice ?? ''}`;

/** The syllables of the notes of a score when one verse is sung, the first where none is wanted; in bars where a voice has no words of it, those of the first verse that it has there. */
export function wordsOfVerse(
  { notes, lyrics }: Pick<Score, 'notes' | 'lyrics'>,
  wanted: string | null,
): ReadonlyMap<NoteId, string> {
  const placeOfNote = new Map(notes.map((note) => [note.id, placeOf(note)]));
  const byPlace = new Map<string, Lyric[]>();
  for (const lyric of lyrics.filter(isSaid)) {
    const place = placeOfNote.get(lyric.note);
    if (place !== undefined) byPlace.set(place, [...(byPlace.get(place) ?? []), lyric]);
  }
  const first = wanted ?? versesOf(lyrics)[0] ?? null;
  const words = [...byPlace.values()].flatMap((sung) => {
    const verse = verseSung(versesOf(sung), first);
    return sung.filter((lyric) => lyric.verse === verse).map((lyric) => [lyric.note, syllableText(lyric)] as const);
  });
  return new Map(words);
}
