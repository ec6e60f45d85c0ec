import type { StaffBracket, Transposition, WrittenClef } from '../score/written.ts';

/** One instrument or voice of an ensemble. */
export interface Player {
  readonly name: string;
  readonly abbreviation: string;
  /** What it can sound. **Units** MIDI note numbers. */
  readonly lowestMidi: number;
  readonly highestMidi: number;
  /** The clefs that it reads, the usual one first; at least one. */
  readonly clefs: readonly [WrittenClef, ...WrittenClef[]];
  /** Null where it reads what sounds. */
  readonly transposition: Transposition | null;
}

/** A named set of players: the lines are given to them in their order, the last one takes all that remain. */
export interface Ensemble {
  readonly name: string;
  readonly players: readonly [Player, ...Player[]];
  /** What holds its staves together. **Source** common practice, no source: instruments share their bar lines, singers keep theirs apart for the words. */
  readonly bracket: StaffBracket;
}

/** The clefs that music is written out in. */
export const clefs = {
  treble: { sign: 'G', staffLine: 2, octave: 0 },
  trebleOctaveLower: { sign: 'G', staffLine: 2, octave: -1 },
  alto: { sign: 'C', staffLine: 3, octave: 0 },
  tenor: { sign: 'C', staffLine: 4, octave: 0 },
  bass: { sign: 'F', staffLine: 4, octave: 0 },
} as const satisfies Readonly<Record<string, WrittenClef>>;

const player = (
  name: string,
  abbreviation: string,
  [lowestMidi, highestMidi]: readonly [number, number],
  ...ownClefs: readonly [WrittenClef, ...WrittenClef[]]
): Player => ({ name, abbreviation, lowestMidi, highestMidi, clefs: ownClefs, transposition: null });

/** A guitar for each line, or one guitar for one line: six strings, the lowest at E or let down to D, 19 frets, written an octave above. **Source** common practice, no source. */
export const oneGuitar: Ensemble = {
  name: 'Guitar',
  players: [player('Guitar', 'Gtr.', [38, 83], clefs.trebleOctaveLower)],
  bracket: 'joined',
};

/** Soprano, alto, tenor and bass in the ranges of a choir. **Source** choral ranges as handbooks of harmony give them; from memory. */
export const fourVoices: Ensemble = {
  name: 'Four voices',
  players: [
    player('Soprano', 'S.', [60, 81], clefs.treble),
    player('Alto', 'A.', [53, 74], clefs.treble),
    player('Tenor', 'T.', [48, 69], clefs.trebleOctaveLower),
    player('Bass', 'B.', [40, 64], clefs.bass),
  ],
  bracket: 'apart',
};

/** Two violins, viola and cello, from their lowest strings up to what amateurs reach. **Source** open strings of the violin family; from memory. */
export const stringQuartet: Ensemble = {
  name: 'String quartet',
  players: [
    player('Violin I', 'Vln. I', [55, 100], clefs.treble),
    player('Violin II', 'Vln. II', [55, 100], clefs.treble),
    player('Viola', 'Vla.', [48, 88], clefs.alto, clefs.treble),
    player('Cello', 'Vc.', [36, 79], clefs.bass, clefs.tenor, clefs.treble),
  ],
  bracket: 'joined',
};

/** The player of each line, by the line's place among those that have pitches. */
export const playerAt = ({ players }: Ensemble, index: number): Player =>
  players[Math.min(index, players.length - 1)] ?? players[0];
