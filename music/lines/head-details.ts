import type { NoteId } from '../basis/ids.ts';
import type { Bend, Lyric } from '../score/marks.ts';
import type { GraceNote, NoteSound, Score, SoundingNote, Technique } from '../score/score.ts';
import type { HeadDetails, WrittenGrace, WrittenJoin, WrittenSound } from '../score/written.ts';
import type { LineJoins } from './line-joins.ts';

/** What a source says of its notes beside pitch and length, ready to be looked up. */
export interface NoteExtras {
  readonly gracesOf: (id: NoteId) => readonly GraceNote[];
  readonly lyricsOf: (id: NoteId) => readonly Lyric[];
  readonly bendsOf: (id: NoteId) => readonly Bend[];
}

function lookup<Item>(items: readonly Item[], keyOf: (item: Item) => NoteId): (id: NoteId) => readonly Item[] {
  const none: readonly Item[] = [];
  const byNote = new Map<NoteId, Item[]>();
  for (const item of items) {
    const known = byNote.get(keyOf(item));
    if (known === undefined) byNote.set(keyOf(item), [item]);
    else known.push(item);
  }
  return (id) => byNote.get(id) ?? none;
}

/** Grace notes, lyrics and bends by their notes. */
export const noteExtras = (score: Pick<Score, 'graces' | 'lyrics' | 'bends'>): NoteExtras => ({
  gracesOf: lookup(score.graces, ({ main }) => main),
  lyricsOf: lookup(score.lyrics, ({ note }) => note),
  bendsOf: lookup(score.bends, ({ note }) => note),
});

/** A sound as it is written in a line, at sounding pitch. */
export const writtenSound = (sound: NoteSound): WrittenSound =>
  sound.kind === 'pitched' ? { kind: 'pitched', pitch: sound.sounding } : { kind: 'hit', hit: sound.hit };

/** Techniques that are written from one note to the next. */
const joining: readonly Technique[] = ['hammerOn', 'pullOff', 'slide'];

/** Where in its tie chain a head stands. */
export interface ChainPlace {
  readonly isFirst: boolean;
  readonly isLast: boolean;
}

/** What is printed at a head of a note: everything at the first of its tie chain, but let ring at the last. */
export function detailsOf(
  note: SoundingNote,
  { isFirst, isLast }: ChainPlace,
  extras: NoteExtras,
  joins: LineJoins,
): HeadDetails | null {
  const techniques = note.techniques.filter((technique) =>
    technique === 'letRing' ? isLast : isFirst && !joining.includes(technique),
  );
  if (!isFirst) {
    const nothing = { bends: [], pluckingFinger: null, frettingFinger: null, lyrics: [], joins: [] };
    return techniques.length === 0 ? null : { techniques, ...nothing };
  }
  const own: readonly WrittenJoin[] = joins.joinsOf(note.id);
  const lyrics = extras.lyricsOf(note.id);
  const bends = extras.bendsOf(note.id);
  const { pluckingFinger, frettingFinger, ornaments = [] } = note;
  const hasFingers = pluckingFinger !== null || frettingFinger !== null;
  const marks = [techniques, ornaments, own, lyrics, bends];
  if (marks.every(({ length }) => length === 0) && !hasFingers) return null;
  return {
    techniques,
    ...(ornaments.length === 0 ? {} : { ornaments }),
    bends: bends.map(({ kind, semitones }) => ({ kind, semitones })),
    pluckingFinger,
    frettingFinger,
    lyrics: lyrics.map(({ verse, text, syllabic, isExtended }) => ({ verse, text, syllabic, isExtended })),
    joins: own,
  };
}

/** The grace notes before a note, as they are written. */
export const writtenGraces = (id: NoteId, extras: NoteExtras, joins: LineJoins): readonly WrittenGrace[] =>
  extras.gracesOf(id).map((grace) => ({
    source: grace.id,
    sound: writtenSound(grace.sound),
    fingerboard: grace.fingerboard,
    hasSlash: grace.hasSlash,
    ...(grace.isChordMember === true ? { isChordMember: true } : {}),
    joins: joins.joinsOf(grace.id),
  }));
