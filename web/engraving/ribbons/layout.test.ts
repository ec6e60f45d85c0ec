import { describe, expect, it } from 'vitest';
import { noteId } from '../../../music/index.ts';
import { hit, meter, note, rest, ticksPerQuarter, voices } from '../../../tests/support/score-builders.ts';
import { splitOf } from '../../../tests/support/split-builders.ts';
import { rowAt, sheetOf, spread, type SheetSize } from './layout.ts';
import { labelsOf } from './note-labels.ts';
import { stopAfterKey, stopsOf } from './note-walk.ts';
import { strandsOf, sungStrands } from './strands.ts';

const score = voices(
  meter(4, 4),
  [note('E4', 1), note('C4', 1), note('E4', 1), note('C4', 1)],
  [note('C4', 1), note('E4', 1), note('C4', 1), note('E4', 1)],
  [rest(1), hit(3)],
);
const split = splitOf({ melody: ['n1', 'n3', 'n6', 'n8'], middle: ['n2', 'n4', 'n7', 'n9'], taps: ['n5'] });
const range = { startTicks: 0, endTicks: 4 * ticksPerQuarter };
const strengthOf = (strength: number) => () => strength;
const sheet = (size: Partial<SheetSize> = {}, strength = 0.6) =>
  sheetOf(score, range, strandsOf(score, split, range, strengthOf(strength)), {
    widthPixels: 800,
    stretch: 'whole',
    ...size,
  });

describe('a ribbon sheet', () => {
  it('shows every note of the split once, none beyond the sheet', () => {
    for (const widthPixels of [328, 800]) {
      const drawn = sheet({ widthPixels });
      const spots = drawn.rows.flatMap((row) => [...row.eyes, ...row.hits]);
      expect(spots.map((spot) => spot.note).sort()).toEqual(['n1', 'n2', 'n3', 'n4', 'n5', 'n6', 'n7', 'n8', 'n9']);
      expect(spots.every((spot) => spot.x > 0 && spot.x < widthPixels)).toBe(true);
    }
  });

  it('puts higher notes higher and later notes further right', () => {
    const [first] = sheet().rows;
    const spot = (id: string) => first!.eyes.find((eye) => eye.note === id)!;
    expect(spot('n1').y).toBeLessThan(spot('n2').y);
    expect(spot('n1').x).toBe(spot('n2').x);
    expect(spot('n3').x).toBeGreaterThan(spot('n1').x);
  });

  it('weaves: where two ribbons cross again and again, over and under alternate', () => {
    const over = sheet().rows[0]!.crossings.map((crossing) => crossing.over);
    expect(over.length).toBeGreaterThanOrEqual(3);
    over.slice(1).forEach((line, index) => expect(line).not.toBe(over[index]));
  });

  it('draws what is played louder thicker', () => {
    const thickest = (strength: number) =>
      Math.max(
        ...sheet({}, strength).rows[0]!.ribbons.flatMap(({ runs }) =>
          runs.flatMap(({ sections }) => sections.map(({ half }) => half)),
        ),
      );
    expect(thickest(0.9)).toBeGreaterThan(1.4 * thickest(0.4));
  });

  it('stretches the pitch axis to sing by, so that 38 cents are more than 4 pixels', () => {
    const eyes = sheet({ stretch: 'sing' }).rows[0]!.eyes;
    const [high, low] = [eyes.find((eye) => eye.note === 'n1')!, eyes.find((eye) => eye.note === 'n2')!];
    expect(((low.y - high.y) / (high.midi - low.midi)) * 0.38).toBeGreaterThan(4);
  });

  it('gives a note on two lines one eye with both', () => {
    const shared = splitOf({ melody: ['n1'], middle: ['n1'] });
    const drawn = sheetOf(score, range, strandsOf(score, shared, range, strengthOf(0.5)), {
      widthPixels: 800,
      stretch: 'whole',
    });
    expect(drawn.rows[0]!.eyes.map((eye) => eye.lines.map((line) => line.name))).toEqual([['melody', 'middle']]);
  });

  it('tells in which row a moment lies', () => {
    const drawn = sheet();
    expect(rowAt(drawn, ticksPerQuarter)).toBe(drawn.rows[0]);
    expect(rowAt(drawn, range.endTicks)).toBe(drawn.rows.at(-1));
    expect(rowAt(drawn, range.endTicks + 1)).toBeNull();
  });
});

describe('labels on a sheet', () => {
  const words = ['A', 'strange-ly', 'through', 'long'];
  const melody = ['n1', 'n3', 'n6', 'n8'].map(noteId);
  const lyrics = melody.map((note, index) => ({
    note,
    verse: '1',
    text: words[index]!,
    syllabic: 'single' as const,
    isExtended: false,
  }));
  const strands = strandsOf(score, split, range, strengthOf(0.6));
  const labelled = (widthPixels: number, kind: 'solfa' | 'words' | 'none') =>
    sheetOf(
      score,
      range,
      strands,
      { widthPixels, stretch: 'whole' },
      labelsOf({ ...score, lyrics }, { labels: kind, verse: null }),
    );

  it('are words at their own notes, none over another', () => {
    const row = labelled(800, 'words').rows[0]!;
    const placed = row.eyes.flatMap(({ note, label, x }) => (label === null ? [] : [{ note, label, x }]));
    expect(placed.map(({ note, label }) => [note, label.text])).toEqual(
      melody.map((note, index) => [note, words[index]]),
    );
    expect(row.eyes.every(({ isSmall }) => isSmall)).toBe(true);
  });

  it('stand in the eyes, which are as wide as they need', () => {
    const eyes = labelled(800, 'solfa').rows[0]!.eyes;
    const shown = eyes.filter(({ label }) => label !== null);
    expect(new Set(shown.map(({ label }) => label!.text))).toEqual(new Set(['do', 'mi']));
    expect(shown.every(({ rx }) => rx >= 7.9)).toBe(true);
    expect(labelled(800, 'none').rows[0]!.eyes.every(({ label, isSmall }) => label === null && isSmall)).toBe(true);
  });

  it('move with a line that is sung an octave lower', () => {
    const [line] = strands;
    const sung = sungStrands(strands, { line: line!.line.id, octaves: -1 });
    expect(sung[0]!.notes.map(({ midi }) => midi)).toEqual(line!.notes.map(({ midi }) => midi - 12));
    expect(sung[1]).toBe(strands[1]);
  });
});

describe('tags', () => {
  it('are moved apart and kept inside', () => {
    expect(spread([10, 12, 90], 30, 100)).toEqual([10, 40, 90]);
    expect(spread([80, 90, 95], 30, 100)).toEqual([40, 70, 100]);
  });
});

describe('the walk by keyboard', () => {
  const drawn = sheet();
  const stops = stopsOf(drawn);
  const lines = split.lines.map((line) => line.id);
  const at = (note: string) => stops.find((stop) => stop.note === note)!;

  it('goes along a line and between lines', () => {
    expect(stopAfterKey(stops, lines, at('n1'), 'ArrowRight')?.note).toBe('n3');
    expect(stopAfterKey(stops, lines, at('n3'), 'ArrowDown')?.note).toBe('n4');
    expect(stopAfterKey(stops, lines, at('n4'), 'ArrowDown')?.note).toBe('n5');
    expect(stopAfterKey(stops, lines, at('n5'), 'ArrowUp')?.note).toBe('n4');
    expect(stopAfterKey(stops, lines, at('n1'), 'End')?.note).toBe('n8');
  });

  it('stays where there is nothing further, and for other keys', () => {
    expect(stopAfterKey(stops, lines, at('n1'), 'ArrowLeft')).toBeNull();
    expect(stopAfterKey(stops, lines, at('n1'), 'ArrowUp')).toBeNull();
    expect(stopAfterKey(stops, lines, at('n1'), 'x')).toBeNull();
  });
});
