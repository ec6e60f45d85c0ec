import { arrange, tunings, type Arrangement } from './arrange/arrange.ts';
import type { Lengths } from './arrange/guitar-part.ts';
import { pieceOf, type Kept } from './arrange/plain.ts';
import { sources, type Source } from './arrange/source.ts';
import type { DataSet, Piece } from './piece.ts';
import { registryScore, sourceVoices } from './registry-scores.ts';

/** The registry’s files that are split with their parts flattened into one. */
export const flattenedFiles = [
  'v2/BWV_0773.xml',
  'v2/BWV_0775.xml',
  'v3/Telemann.xml',
  'v3/Binchois.xml',
  'v3/MozartTrio.xml',
  'v3/Dichterliebe01.xml',
] as const;

function registryPiece(path: string): Piece {
  const score = registryScore(path);
  const voices = sourceVoices(score);
  return pieceOf({ id: path, score, truth: voices.map((voice) => [voice]) }, 'nothing');
}

/** Sources of one kind, and what the kind is called. */
const kinds: readonly (readonly [name: string, isOfKind: (source: Source) => boolean])[] = [
  ['two lines', ({ lines, hasChords }) => lines.length === 2 && !hasChords],
  ['three lines', ({ lines, hasChords }) => lines.length === 3 && !hasChords],
  ['four lines', ({ lines, hasChords }) => lines.length === 4 && !hasChords],
  ['with chords', ({ hasChords }) => hasChords],
];

/** A group of arrangements that are measured together. */
export interface ArrangedSet {
  readonly name: string;
  readonly lengths: Lengths;
  readonly arrangements: readonly Arrangement[];
}

/** Every source arranged with its lengths told in each way, in standard and dropped tuning by turns, with a hit on every sixth beat or so. */
export function arrangedSets(): readonly ArrangedSet[] {
  const all = sources();
  const arranged = (lengths: Lengths, source: Source): Arrangement => {
    const turn = all.indexOf(source);
    const tuning = turn % 2 === 0 ? tunings.standard : tunings.dropped;
    return arrange(source, { tuning, lengths, hitEvery: 6, seed: 100 + turn });
  };
  return kinds.flatMap(([name, isOfKind]) =>
    (['written', 'ringing', 'tablature'] as const).map((lengths): ArrangedSet => {
      const arrangements = all.filter(isOfKind).map((source) => arranged(lengths, source));
      return { name: `guitar, ${name}, ${lengths}`, lengths, arrangements };
    }),
  );
}

/** What is measured without any data of others: files of the registry, and arrangements of them, told with as much as is kept. */
export const ownSets = (kept: Kept): readonly DataSet[] => [
  { name: 'registry files, flattened', pieces: flattenedFiles.map(registryPiece) },
  ...arrangedSets().map(({ name, arrangements }) => ({
    name,
    pieces: arrangements.map((each) => pieceOf(each, kept)),
  })),
];
