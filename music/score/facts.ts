import type { Meter, Part, Score, SoundingNote } from './score.ts';

/** The facts of one part. */
export interface PartFacts extends Pick<
  Part,
  'id' | 'name' | 'staves' | 'tuning' | 'capoFret' | 'soundingShift' | 'pairedWith'
> {
  /** As many as its voices strike: a double-stemmed unison counts twice, a tablature copy not again. */
  readonly soundingNotes: number;
}

/** What a score is, in numbers. Bars in lists are ordinals from 1. */
export interface ScoreFacts {
  readonly title: string;
  readonly composer: string;
  readonly parts: readonly PartFacts[];
  readonly barCount: number;
  /** Written heads and fret numbers, grace notes included. */
  readonly heads: number;
  /** Every chord member, each tie chain once, no grace or cue notes, a double-stemmed unison twice, a tablature copy not again. */
  readonly soundingNotes: number;
  /** As sounding notes, but a double-stemmed unison, or one of two voices on a staff, once: what the hand plucks and hits. */
  readonly plucks: number;
  /** Where the meter changes, from the first bar, with the meter as `3/4` or `3+2/8`. */
  readonly meters: readonly (readonly [number, string])[];
  /** Where the key changes, from the first bar, with its sharps (flats below 0). */
  readonly keys: readonly (readonly [number, number])[];
  /** The first tempo, or null where the score has none. */
  readonly quartersPerMinute: number | null;
}

/** A meter as people write it: `4/4`, `3+2/8`. */
export const meterText = ({ beats, beatUnit }: Meter): string => `${beats.join('+')}/${beatUnit}`;

function changes<Value>(score: Score, valueOf: (bar: Score['bars'][number]) => Value): (readonly [number, Value])[] {
  const found: (readonly [number, Value])[] = [];
  for (const bar of score.bars) {
    const value = valueOf(bar);
    if (found.at(-1)?.[1] !== value) found.push([bar.ordinal, value]);
  }
  return found;
}

const voicesIn = (notes: readonly SoundingNote[], part: Part): number =>
  notes.reduce((sum, note) => sum + note.voices.filter((voice) => voice.part === part.id).length, 0);

function partFacts(score: Score, part: Part): PartFacts {
  const { id, name, staves, tuning, capoFret, soundingShift, pairedWith } = part;
  return { id, name, staves, tuning, capoFret, soundingShift, pairedWith, soundingNotes: voicesIn(score.notes, part) };
}

/** Two voices of a staff that meet on a pitch strike it once; heads that tell their strings have been told apart or joined before. */
function plucksIn(notes: readonly SoundingNote[]): number {
  const struckBy = new Map<string, string>();
  const isStruck = ({ onsetTicks, sound, fingerboard, voices: [source] }: SoundingNote): boolean => {
    if (sound.kind === 'hit' || fingerboard !== null || source === undefined) return true;
    const moment = `${onsetTicks} ${source.part} ${source.staff} ${sound.soundingMidi}`;
    const other = struckBy.get(moment);
    struckBy.set(moment, source.voice);
    return other === undefined || other === source.voice;
  };
  return notes.filter(isStruck).length;
}

/** What a score is, in numbers. */
export function factsOf(score: Score): ScoreFacts {
  const headsIn = (rows: readonly { readonly heads: readonly unknown[] }[]): number =>
    rows.reduce((sum, { heads }) => sum + heads.length, 0);
  return {
    title: score.title,
    composer: score.composer,
    parts: score.parts.map((part) => partFacts(score, part)),
    barCount: score.bars.length,
    heads: headsIn(score.notes) + headsIn(score.graces),
    soundingNotes: score.notes.reduce((sum, { voices }) => sum + voices.length, 0),
    plucks: plucksIn(score.notes),
    meters: changes(score, ({ meter }) => meterText(meter)),
    keys: changes(score, ({ key }) => key.fifths),
    quartersPerMinute: score.tempos[0]?.quartersPerMinute ?? null,
  };
}
