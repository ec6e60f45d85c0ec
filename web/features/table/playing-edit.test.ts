import { describe, expect, it } from 'vitest';
import { plainPlaying, playingSchema } from '../../../contract/index.ts';
import { barId, lineId } from '../../../music/index.ts';
import { line, meter, note } from '../../../tests/support/score-builders.ts';
import { weightAt, weightOfLine, withLineWeight, withSectionWeight } from './playing-edit.ts';
import { songSections } from './song-sections.ts';

const [bass, melody] = [lineId('bass'), lineId('melody')];
const [a, b, c] = ['b1', 'b5', 'b9'].map(barId) as [
  ReturnType<typeof barId>,
  ReturnType<typeof barId>,
  ReturnType<typeof barId>,
];

describe('how a song is played', () => {
  it('tells of a line only while it is set otherwise, and stays valid on the wire', () => {
    const softer = withLineWeight(withLineWeight(plainPlaying, bass, { levelDb: -4 }), bass, { dynamicsPercent: 50 });
    expect(playingSchema.parse(softer)).toEqual(softer);
    expect([weightOfLine(softer, bass), weightOfLine(softer, melody)]).toEqual([
      { line: bass, levelDb: -4, dynamicsPercent: 50 },
      { levelDb: 0, dynamicsPercent: 100 },
    ]);
    expect(withLineWeight(softer, bass, { levelDb: 0, dynamicsPercent: 100 })).toEqual(plainPlaying);
  });

  it('lets a section end where the next one begins', () => {
    const middle = withSectionWeight(plainPlaying, [a, b, c], b, { levelDb: 3 });
    expect(middle.expression.sections.map(({ startBar, levelDb }) => [startBar, levelDb])).toEqual([
      [a, 0],
      [b, 3],
      [c, 0],
    ]);
    expect(weightAt(middle, b).levelDb).toBe(3);
    expect(withSectionWeight(middle, [a, b, c], b, { levelDb: 0 })).toEqual(plainPlaying);
  });
});

describe('the sections of a song', () => {
  const bars = (...pitches: readonly string[]) => line(meter(4, 4), ...pitches.map((pitch) => note(pitch, 4)));
  const starts = (score: Parameters<typeof songSections>[0], own = [] as readonly ReturnType<typeof barId>[]) =>
    songSections(score, own).map(({ name }) => name);
  const plain = bars('C4', 'D4', 'E4', 'F4');
  const marked = (index: number, change: object) => ({
    ...plain,
    bars: plain.bars.map((bar, place) => (place === index ? { ...bar, ...change } : bar)),
  });

  it('begin at rehearsal marks and printed names', () => {
    expect(starts(marked(2, { rehearsalMark: 'B' }))).toEqual(['from bar 1', 'B, from bar 3']);
    const onsetTicks = plain.bars[1]!.onsetTicks;
    const words = [{ onsetTicks, part: plain.parts[0]!.id, staff: 1, kind: 'section' as const, text: 'Chorus' }];
    expect(starts({ ...plain, words })).toEqual(['from bar 1', 'Chorus, from bar 2']);
  });

  it('begin at repeats where nothing is marked', () => {
    expect(starts(marked(1, { repeatTimes: 2 }))).toEqual(['from bar 1', 'from bar 3']);
  });

  it('begin where the opening comes again where nothing is repeated either', () => {
    expect(starts(bars('C4', 'D4', 'E4', 'G3', 'C4', 'D4', 'B3'))).toEqual(['from bar 1', 'from bar 5']);
  });

  it('begin where a teacher says', () => {
    expect(starts(plain, [plain.bars[3]!.id])).toEqual(['from bar 1', 'from bar 4']);
  });
});
