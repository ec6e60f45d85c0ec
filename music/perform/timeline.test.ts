import { describe, expect, it } from 'vitest';
import { line, meter, note, rest } from '../../tests/support/score-builders.ts';
import { timelineOf } from './timeline.ts';

const twoFour = meter(2, 4);

describe('the timeline', () => {
  it('counts 120 quarter notes a minute where no tempo stands (Standard MIDI Files 1.0, default tempo)', () => {
    const score = { ...line(twoFour, note('C4', 1), note('D4', 1), note('E4', 2)), tempos: [] };
    const timeline = timelineOf(score);
    expect(timeline.notes.map(({ onsetSeconds, lengthSeconds, midi }) => [midi, onsetSeconds, lengthSeconds])).toEqual([
      [60, 0, 0.5],
      [62, 0.5, 0.5],
      [64, 1, 1],
    ]);
    expect(timeline.lengthSeconds).toBe(2);
  });

  it('holds 120 before a first tempo that stands later', () => {
    const score = line(twoFour, note('C4', 2), note('D4', 2));
    const later = { ...score, tempos: [{ onsetTicks: 2 * score.ticksPerQuarter, quartersPerMinute: 60 }] };
    expect(timelineOf(later).bars.map(({ startSeconds, endSeconds }) => [startSeconds, endSeconds])).toEqual([
      [0, 1],
      [1, 3],
    ]);
  });

  it('unfolds repeats and endings, each playing with its pass, tempo changes within bars included', () => {
    const plain = { meter: twoFour };
    const score = line(
      [
        { ...plain, startsRepeat: true },
        { ...plain, endings: [1], repeatTimes: 2 },
        { ...plain, endings: [2] },
      ],
      note('C4', 1),
      note('D4', 1),
      note('E4', 2),
      note('F#4', 2),
    );
    const tempos = [
      { onsetTicks: 0, quartersPerMinute: 60 },
      { onsetTicks: score.ticksPerQuarter, quartersPerMinute: 120 },
    ];
    const timeline = timelineOf({ ...score, tempos });
    expect(timeline.bars.map(({ ordinal, pass, startSeconds }) => [ordinal, pass, startSeconds])).toEqual([
      [1, 1, 0],
      [2, 1, 1.5],
      [1, 2, 2.5],
      [3, 1, 4],
    ]);
    expect(timeline.notes.map(({ onsetSeconds, lengthSeconds, pass }) => [onsetSeconds, lengthSeconds, pass])).toEqual([
      [0, 1, 1],
      [1, 0.5, 1],
      [1.5, 1, 1],
      [2.5, 1, 2],
      [3.5, 0.5, 2],
      [4, 1, 1],
    ]);
  });

  it('has the length of each stem of a double-stemmed unison', () => {
    const score = line(twoFour, note('C4', 2));
    const [whole] = score.notes;
    const [voice] = whole!.voices;
    const voiceLengthTicks = [2 * score.ticksPerQuarter, score.ticksPerQuarter];
    const unison = { ...whole!, voices: [voice!, { ...voice!, voice: '2' }], voiceLengthTicks };
    expect(timelineOf({ ...score, tempos: [], notes: [unison] }).notes).toMatchObject([
      { lengthSeconds: 1, voiceLengthSeconds: [1, 0.5] },
    ]);
  });

  it('tells hits by their kind and leaves rests out', () => {
    const score = line(twoFour, rest(1), note('C4', 1));
    const [first] = score.notes;
    const struck = {
      ...score,
      notes: [{ ...first!, sound: { kind: 'hit', hit: 'lowBody', isCertain: true } as const }],
    };
    expect(timelineOf(struck).notes).toMatchObject([{ midi: null, hit: 'lowBody' }]);
  });

  it('has nothing for a score without bars', () => {
    expect(timelineOf({ bars: [], notes: [], tempos: [], ticksPerQuarter: 1 })).toEqual({
      bars: [],
      notes: [],
      lengthSeconds: 0,
    });
  });
});
