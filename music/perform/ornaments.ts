import { midiOf, type Pitch } from '../basis/pitch.ts';
import { neighbourLetter, type NeighbourOrnament, type NeighbourSide } from '../score/ornaments.ts';
import type { Score, SoundingNote } from '../score/score.ts';
import { alterationInKey, keyAt } from '../score/tonality.ts';
import type { PlayedNote, Strike } from './played-notes.ts';
import { tremoloStrikes } from './tremolos.ts';

/** The notes of an ornament are about a thirty-second each, neither quicker nor slower than this. **Units** seconds. Common practice, no source. */
const shortestSeconds = 1 / 14;
const longestSeconds = 1 / 8;
const thirtySecondsPerQuarter = 8;
const nearSeconds = 1e-9;
/** Over a minute of one trill, and two hours of trills in all, are no music and would never be heard; what goes beyond is played plainly. */
const mostStrikesOfNote = 1000;
const mostStrikes = 100_000;

/** One strike of an ornament, from its moment to the next one's. **Units** `atShare` of the note's time, 0 to 1; semitones from the note. */
interface Beat {
  readonly atShare: number;
  readonly semitones: number;
}

interface Room {
  readonly seconds: number;
  /** How long one note of the ornament lasts. */
  readonly eachSeconds: number;
}

/** How far a neighbour lies from a note, a semitone at least: as an accidental tells, else by the key. **Units** semitones. */
function distanceTo(side: NeighbourSide, pitch: Pitch, told: number | undefined, fifths: number): number {
  const letter = neighbourLetter(pitch, side);
  const alter = told ?? alterationInKey(letter.step, fifths);
  const semitones = midiOf({ ...letter, alter }) - midiOf(pitch);
  return side === 'above' ? Math.max(1, semitones) : Math.min(-1, semitones);
}

/** Main note and upper neighbour in turn, evenly, from the main note to the main note. */
function trill(above: number, { seconds, eachSeconds }: Room): readonly Beat[] {
  const most = Math.floor(seconds / eachSeconds + nearSeconds);
  const count = most % 2 === 0 ? most - 1 : most;
  if (count > mostStrikesOfNote) return [];
  return Array.from({ length: count }, (_, index) => ({
    atShare: index / count,
    semitones: index % 2 === 0 ? 0 : above,
  }));
}

/** Short notes at the beginning of the main note's time, or at its end, and one that lasts. */
function figure(steps: readonly number[], isDelayed: boolean, { seconds, eachSeconds }: Room): readonly Beat[] {
  const eachShare = eachSeconds / seconds;
  const startShare = isDelayed ? 1 - steps.length * eachShare : 0;
  return [
    ...(isDelayed ? [{ atShare: 0, semitones: 0 }] : []),
    ...steps.map((semitones, index) => ({ atShare: startShare + index * eachShare, semitones })),
  ];
}

/** The fewest notes that an ornament has. */
const fewest: Readonly<Record<NeighbourOrnament['kind'], number>> = {
  trill: 3,
  mordent: 3,
  invertedMordent: 3,
  turn: 4,
  invertedTurn: 4,
  delayedTurn: 5,
  delayedInvertedTurn: 5,
};

function roomFor(kind: NeighbourOrnament['kind'], seconds: number, quarterSeconds: number): Room | null {
  const thirtySecond = quarterSeconds / thirtySecondsPerQuarter;
  const usual = Math.min(longestSeconds, Math.max(shortestSeconds, thirtySecond));
  const eachSeconds = Math.min(usual, seconds / fewest[kind]);
  return eachSeconds < shortestSeconds - nearSeconds ? null : { seconds, eachSeconds };
}

function beatsOf({ kind }: NeighbourOrnament, above: number, below: number, room: Room): readonly Beat[] {
  switch (kind) {
    case 'trill':
      return trill(above, room);
    case 'mordent':
      return figure([0, below, 0], false, room);
    case 'invertedMordent':
      return figure([0, above, 0], false, room);
    case 'turn':
      return figure([above, 0, below, 0], false, room);
    case 'invertedTurn':
      return figure([below, 0, above, 0], false, room);
    case 'delayedTurn':
      return figure([above, 0, below, 0], true, room);
    case 'delayedInvertedTurn':
      return figure([below, 0, above, 0], true, room);
  }
}

function strikeAt(index: number, count: number): Strike {
  if (index === 0) return 'first';
  return index === count - 1 ? 'last' : 'between';
}

/** A note's sound so many semitones away. */
function moved(sound: PlayedNote['sound'], semitones: number): PlayedNote['sound'] {
  return sound.kind === 'hit' || semitones === 0 ? sound : { ...sound, soundingMidi: sound.soundingMidi + semitones };
}

/** Where a neighbour is stopped: on the string of its note; nowhere known below an open string. */
function placeOf({ fingerboard }: PlayedNote, semitones: number): PlayedNote['fingerboard'] {
  if (fingerboard === null || fingerboard.fret + semitones < 0) return null;
  return { ...fingerboard, fret: fingerboard.fret + semitones };
}

/** A note in several strikes, each until the next; the last one rings as the note would. */
function inStrikes(played: PlayedNote, beats: readonly Beat[], isHammered: boolean): readonly PlayedNote[] {
  if (beats.length < 2) return [played];
  const seconds = played.endSeconds - played.onsetSeconds;
  const momentOf = (share: number): number => played.onsetSeconds + seconds * share;
  return beats.map(({ atShare, semitones }, index): PlayedNote => {
    const next = beats[index + 1];
    const endSeconds = next === undefined ? played.endSeconds : momentOf(next.atShare);
    return {
      ...played,
      sound: moved(played.sound, semitones),
      fingerboard: semitones === 0 ? played.fingerboard : placeOf(played, semitones),
      onsetSeconds: momentOf(atShare),
      endSeconds,
      latestSeconds: next === undefined ? played.latestSeconds : endSeconds,
      strike: strikeAt(index, beats.length),
      isHammered: isHammered && index > 0,
      struckTicks: played.onsetTicks + Math.round(atShare * played.main.lengthTicks),
    };
  });
}

type OrnamentedScore = Pick<Score, 'notes' | 'bars' | 'keyChanges' | 'ticksPerQuarter'>;

function withNeighbours(
  played: PlayedNote,
  ornament: NeighbourOrnament,
  score: OrnamentedScore,
): readonly PlayedNote[] {
  const { sound, main } = played;
  const seconds = played.endSeconds - played.onsetSeconds;
  const room = roomFor(ornament.kind, seconds, (seconds * score.ticksPerQuarter) / main.lengthTicks);
  if (sound.kind === 'hit' || room === null) return [played];
  const { fifths } = keyAt(score, main.onsetTicks);
  const above = distanceTo('above', sound.sounding, ornament.alterAbove, fifths);
  const below = distanceTo('below', sound.sounding, ornament.alterBelow, fifths);
  return inStrikes(played, beatsOf(ornament, above, below, room), true);
}

const chordKey = ({ onsetTicks, voices: [voice] }: SoundingNote): string =>
  `${onsetTicks} ${voice?.part} ${voice?.staff} ${voice?.voice}`;

/** The strokes of tremolos by their chords: one is printed for all notes that one voice strikes together. */
function strokesByChord(notes: readonly SoundingNote[]): ReadonlyMap<string, number> {
  const strokes = new Map<string, number>();
  for (const note of notes)
    for (const ornament of note.ornaments ?? [])
      if (ornament.kind === 'tremolo') strokes.set(chordKey(note), ornament.strokes);
  return strokes;
}

function strikesOf(
  played: PlayedNote,
  strokesOf: ReadonlyMap<string, number>,
  score: OrnamentedScore,
): readonly PlayedNote[] {
  const ornament = played.main.ornaments?.find((each) => each.kind !== 'tremolo');
  if (ornament !== undefined) return withNeighbours(played, ornament, score);
  const strokes = strokesOf.get(chordKey(played.main));
  if (strokes === undefined) return [played];
  const seconds = played.endSeconds - played.onsetSeconds;
  const count = tremoloStrikes(strokes, { ...score, ...played.main, seconds });
  if (count > mostStrikesOfNote) return [played];
  const beats = Array.from({ length: count }, (_, index) => ({ atShare: index / count, semitones: 0 }));
  return inStrikes(played, beats, false);
}

/** What plays a note with its ornament: in several strikes within its time; as it is where it has none, or no time for one. */
export function ornamentsOf(score: OrnamentedScore): (played: PlayedNote) => readonly PlayedNote[] {
  const strokesOf = strokesByChord(score.notes);
  let left = mostStrikes;
  return (played) => {
    if (played.isGrace || left === 0) return [played];
    const strikes = strikesOf(played, strokesOf, score);
    if (strikes.length > 1) left = Math.max(0, left - strikes.length);
    return strikes;
  };
}
