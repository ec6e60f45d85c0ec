import { describe, expect, it } from 'vitest';
import { accuracyOf } from './accuracy.ts';
import { scoreOfPiece } from './piece-score.ts';
import type { Piece } from './piece.ts';
import { teach, type Tool } from './teacher.ts';
import { splitterTool, tableTool } from './tools.ts';

/** Three voices in registers of their own; the middle one rests for the first half. */
const piece: Piece = {
  id: 'three',
  ticksPerQuarter: 4,
  meters: [{ onsetTicks: 0, beats: 3, beatUnit: 4 }],
  notes: Array.from({ length: 24 }, (_, beat) => [
    { onsetTicks: 4 * beat, lengthTicks: 4, midi: 72 + ((beat * 5) % 7), voice: 'high' },
    ...(beat < 12 ? [] : [{ onsetTicks: 4 * beat, lengthTicks: 4, midi: 60 + ((beat * 3) % 5), voice: 'middle' }]),
    { onsetTicks: 4 * beat, lengthTicks: 4, midi: 45 + ((beat * 2) % 5), voice: 'low' },
  ]).flat(),
};

const tools: readonly (readonly [name: string, make: (lineCount?: number) => Tool])[] = [
  ['the splitting table', (lineCount) => tableTool(scoreOfPiece(piece), lineCount)],
  ['the bare splitter', (lineCount) => splitterTool(piece, lineCount)],
];

describe.each(tools)('%s as a tool', (_, make) => {
  it('proposes a label for every note and keeps what is pinned', () => {
    const tool = make(2);
    const first = tool.propose(new Map());
    expect(first).toHaveLength(piece.notes.length);
    const other = first.find((label) => label !== first[0])!;
    expect(tool.propose(new Map([[0, other]]))[0]).toBe(other);
  });

  it('has a line of its own for a voice that was not found, and comes to the end with it', () => {
    const { byHand, withTool } = teach(piece, make(2));
    expect(byHand).toBeGreaterThan(0);
    expect(withTool).toBeGreaterThan(0);
  });

  it('is right from the start where the lines are plain', () => {
    const tool = make(3);
    expect(accuracyOf(piece, tool.propose(new Map())).right).toBe(1);
    expect(teach(piece, make(3))).toEqual({ id: 'three', byHand: 0, withTool: 0 });
  });
});

describe('scoreOfPiece', () => {
  it('has bars of its meter and the notes in the order of the piece', () => {
    const score = scoreOfPiece(piece);
    expect(score.bars).toHaveLength(8);
    expect(score.bars.every(({ lengthTicks }) => lengthTicks === 12)).toBe(true);
    expect(
      score.notes.map(({ onsetTicks, sound }) => [onsetTicks, sound.kind === 'pitched' && sound.soundingMidi]),
    ).toEqual(piece.notes.map(({ onsetTicks, midi }) => [onsetTicks, midi]));
    for (const { bar, onsetTicks } of score.notes)
      expect(score.bars.find(({ id }) => id === bar)?.onsetTicks).toBe(12 * Math.floor(onsetTicks / 12));
  });
});
