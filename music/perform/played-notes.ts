import type { NoteId } from '../basis/ids.ts';
import type { TickRange } from '../score/excerpt.ts';
import type { GraceNote, Score, SoundingNote, Technique } from '../score/score.ts';
import type { Clock } from './time-map.ts';

/** Which of the strikes that an ornament makes of a note: the whole of a note without one. */
export type Strike = 'whole' | 'first' | 'between' | 'last';

/** One playing of one note, or of one strike of an ornament, with its place in seconds; a grace note borrows from its main note. */
export interface PlayedNote {
  readonly id: NoteId;
  /** The note whose lines, voices and techniques hold: itself, or a grace note's main note. */
  readonly main: SoundingNote;
  readonly sound: SoundingNote['sound'];
  readonly fingerboard: SoundingNote['fingerboard'];
  readonly onsetTicks: number;
  readonly onsetSeconds: number;
  /** Where its written length ends. */
  readonly endSeconds: number;
  /** The latest moment it may ring to: two bars on. */
  readonly latestSeconds: number;
  /** The first rest of its own voice at or after its written end; Infinity where none follows. */
  readonly restSeconds: number;
  readonly isGrace: boolean;
  readonly strike: Strike;
  /** Stopped by a finger of the left hand after the strike before it, and not plucked. */
  readonly isHammered: boolean;
  /** Where in the written score it is struck: within its note for a later strike. */
  readonly struckTicks: number;
  /** What a playing adds to the strength that the score asks for; below 0 it takes away. */
  readonly addedStrength: number;
}

/** Techniques of how a note begins, and of how it goes on and ends. */
const ofBeginning: ReadonlySet<Technique> = new Set<Technique>([
  'accent',
  'strongAccent',
  'hammerOn',
  'pullOff',
  'slide',
  'slideIn',
  'slideInFromAbove',
]);
const ofEnd: ReadonlySet<Technique> = new Set<Technique>([
  'letRing',
  'slideOut',
  'slideOutUpwards',
  'bend',
  'vibrato',
  'staccato',
]);

/** Whether a playing is the one that its note begins with, and whether it is the one that its note ends with. */
export const beginsNote = ({ strike }: Pick<PlayedNote, 'strike'>): boolean => strike === 'whole' || strike === 'first';
export const endsNote = ({ strike }: Pick<PlayedNote, 'strike'>): boolean => strike === 'whole' || strike === 'last';

/** Whether a technique of its note is for this playing; none is for a grace note. */
export function hasTechnique(note: PlayedNote, technique: Technique): boolean {
  if (note.isGrace || !note.main.techniques.includes(technique)) return false;
  return (beginsNote(note) || !ofBeginning.has(technique)) && (endsNote(note) || !ofEnd.has(technique));
}

/** How long a quick grace note takes, and how far apart the notes of a strum and an arpeggio are. **Units** seconds. From memory, no source. */
const graceSeconds = 0.075;
/** A grace note that leans on the beat takes half of its main note, up to this. **Units** seconds. Common practice, no source. */
const leaningSeconds = 0.25;
const leaningShare = 0.5;
const strumSeconds = 0.011;
const arpeggioSeconds = 0.04;

/** Items by their key, in their order. */
export function groupedBy<Item, Key>(
  items: readonly Item[],
  keyOf: (item: Item) => Key,
): ReadonlyMap<Key, readonly Item[]> {
  const groups = new Map<Key, Item[]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group === undefined) groups.set(keyOf(item), [item]);
    else group.push(item);
  }
  return groups;
}

const voiceKey = (voice: SoundingNote['voices'][number]): string => `${voice.part}/${voice.staff}/${voice.voice}`;

/** For each source voice the onsets of its rests, in order. */
function restOnsetsByVoice(score: Pick<Score, 'rests'>): ReadonlyMap<string, readonly number[]> {
  const byVoice = new Map<string, number[]>();
  for (const rest of score.rests) {
    const key = voiceKey(rest.voice);
    const onsets = byVoice.get(key) ?? [];
    onsets.push(rest.onsetTicks);
    byVoice.set(key, onsets);
  }
  for (const onsets of byVoice.values()) onsets.sort((a, b) => a - b);
  return byVoice;
}

/** The first of some sorted onsets that is not before `ticks`; Infinity where there is none. */
function firstFrom(onsets: readonly number[], ticks: number): number {
  let low = 0;
  let high = onsets.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((onsets[middle] ?? Infinity) < ticks) low = middle + 1;
    else high = middle;
  }
  return onsets[low] ?? Infinity;
}

function restAfter(note: SoundingNote, rests: ReadonlyMap<string, readonly number[]>, limitTicks: number): number {
  const end = note.onsetTicks + note.lengthTicks;
  let latest = -Infinity;
  for (const voice of note.voices) {
    const rest = firstFrom(rests.get(voiceKey(voice)) ?? [], end);
    latest = Math.max(latest, rest < limitTicks ? rest : Infinity);
  }
  return latest === -Infinity ? Infinity : latest;
}

/** How long after the chord's first note each of a strummed or spread chord's notes begins. */
function spreadOf(notes: readonly SoundingNote[]): ReadonlyMap<SoundingNote, number> {
  const spread = new Map<SoundingNote, number>();
  const pitch = (note: SoundingNote): number =>
    note.sound.kind === 'pitched' ? note.sound.soundingMidi : -(note.fingerboard?.string ?? 0);
  const signs = (['arpeggio', 'arpeggioDown', 'strumDown', 'strumUp'] as const).map(
    (sign) => [sign, notes.filter((note) => note.techniques.includes(sign))] as const,
  );
  for (const [sign, members] of signs) {
    const upwards = [...members].sort((a, b) => pitch(a) - pitch(b));
    if (sign === 'strumUp' || sign === 'arpeggioDown') upwards.reverse();
    for (const [index, note] of upwards.entries())
      spread.set(note, index * (sign.startsWith('arpeggio') ? arpeggioSeconds : strumSeconds));
  }
  return spread;
}

/** Whether a grace note takes its time from its main note: one alone, printed without a slash, from which no string is hammered, pulled off or slid. A grace chord is one. Common practice, no source. */
function leans(note: SoundingNote, [first, ...others]: readonly GraceNote[]): boolean {
  const isJoined = (['hammerOn', 'pullOff', 'slide'] as const).some((join) => note.techniques.includes(join));
  return (
    first !== undefined && others.every(({ isChordMember }) => isChordMember === true) && !first.hasSlash && !isJoined
  );
}

/** The place of each grace note among those before a note, from 0; those of a chord share one. */
function placesOf(graces: readonly GraceNote[]): readonly number[] {
  let place = 0;
  return graces.map(({ isChordMember }, index) => {
    if (index > 0 && isChordMember !== true) place += 1;
    return place;
  });
}

/** A main note with its grace notes: quick ones stand before the beat, as far as the performance reaches back; one that leans stands on it. */
function withGraces(played: PlayedNote, graces: readonly GraceNote[]): readonly PlayedNote[] {
  if (graces.length === 0) return [played];
  const isLeaning = leans(played.main, graces);
  const half = (played.endSeconds - played.onsetSeconds) * leaningShare;
  const eachSeconds = isLeaning ? Math.min(leaningSeconds, half) : graceSeconds;
  const places = placesOf(graces);
  const allSeconds = eachSeconds * ((places.at(-1) ?? 0) + 1);
  const startSeconds = isLeaning ? played.onsetSeconds : Math.max(0, played.onsetSeconds - allSeconds);
  const main = { ...played, onsetSeconds: startSeconds + allSeconds };
  const before = graces.map((grace, index): PlayedNote => {
    const onsetSeconds = startSeconds + eachSeconds * (places[index] ?? 0);
    const endSeconds = onsetSeconds + eachSeconds;
    const { id, sound, fingerboard } = grace;
    return { ...main, id, sound, fingerboard, onsetSeconds, endSeconds, latestSeconds: endSeconds, isGrace: true };
  });
  return [...before, main];
}

/** Every note that starts within a stretch, in order of playing, grace notes before their main notes. */
export function playedNotesIn(
  score: Pick<Score, 'notes' | 'graces' | 'bars' | 'rests'>,
  range: TickRange,
  secondsAt: Clock,
): readonly PlayedNote[] {
  const rests = restOnsetsByVoice(score);
  const bars = new Map(score.bars.map((bar) => [bar.id, bar]));
  const graces = groupedBy(score.graces, (grace) => grace.main);
  const within = score.notes.filter((note) => note.onsetTicks >= range.startTicks && note.onsetTicks < range.endTicks);
  const spread = spreadsOf(within);
  return within.flatMap((note) => {
    const twoBars = 2 * (bars.get(note.bar)?.lengthTicks ?? note.lengthTicks);
    const rest = restAfter(note, rests, range.endTicks);
    const played: PlayedNote = {
      id: note.id,
      main: note,
      sound: note.sound,
      fingerboard: note.fingerboard,
      isGrace: false,
      strike: 'whole',
      isHammered: false,
      struckTicks: note.onsetTicks,
      addedStrength: 0,
      onsetTicks: note.onsetTicks,
      onsetSeconds: secondsAt(note.onsetTicks) + (spread.get(note) ?? 0),
      endSeconds: secondsAt(note.onsetTicks + note.lengthTicks),
      latestSeconds: secondsAt(note.onsetTicks + Math.max(note.lengthTicks, twoBars)),
      restSeconds: rest === Infinity ? Infinity : secondsAt(rest),
    };
    return withGraces(played, graces.get(note.id) ?? []);
  });
}

function spreadsOf(notes: readonly SoundingNote[]): ReadonlyMap<SoundingNote, number> {
  const all = new Map<SoundingNote, number>();
  for (const chord of groupedBy(notes, (note) => note.onsetTicks).values()) {
    if (chord.length > 1) for (const [note, seconds] of spreadOf(chord)) all.set(note, seconds);
  }
  return all;
}
