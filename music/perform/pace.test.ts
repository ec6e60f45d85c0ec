import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partId } from '../basis/ids.ts';
import type { SwingMark } from '../score/marks.ts';
import type { Score } from '../score/score.ts';
import { line, meter, note, pickup, rest, ticksPerQuarter, voices } from '../../tests/support/score-builders.ts';
import { allOn } from '../../tests/support/split-builders.ts';
import { countInBefore } from './count-in.ts';
import type { Click, Performance, Subdivision } from './performance.ts';
import { performLines, type PerformOptions } from './perform-lines.ts';
import { secondsAtTicks, ticksAtSeconds } from './time-map.ts';
import { timelineOf } from './timeline.ts';

const four = meter(4, 4);
const at60 = (score: Score): Score => ({ ...score, tempos: [{ onsetTicks: 0, quartersPerMinute: 60 }] });
const rounded = (values: readonly number[]): number[] => values.map((value) => Math.round(value * 1000) / 1000);
const notes = (count: number, quarters: number) => Array.from({ length: count }, () => note('E4', quarters));
const swung = (score: Score, long: number, short: number, unit: SwingMark['unit'] = 'eighth'): Score => ({
  ...at60(score),
  swings: [{ onsetTicks: 0, long, short, unit, isAssumed: false }],
});
const performed = (score: Score, options: PerformOptions = {}): Performance =>
  performLines(score, allOn(score), options);
const clicked = (clicks: readonly Click[], subdivision: Subdivision): number[] =>
  rounded(clicks.flatMap((click) => (click.subdivisions.includes(subdivision) ? [click.atSeconds] : [])));
const onsets = (score: Score, options: PerformOptions = {}): number[] =>
  rounded(performed(score, options).events.map((event) => event.onsetSeconds));

describe('[R46] swing (MusicXML 4.0, swing: first and second are the ratio of the stated notes)', () => {
  it('makes the first of two eighths long and the second short, at the ratio of the mark', () => {
    expect(onsets(swung(line(four, ...notes(8, 0.5)), 2, 1)).slice(0, 5)).toEqual([0, 0.667, 1, 1.667, 2]);
    expect(onsets(swung(line(four, ...notes(8, 0.5)), 3, 2)).slice(0, 4)).toEqual([0, 0.6, 1, 1.6]);
    expect(onsets(swung(line(four, ...notes(8, 0.5)), 2, 1), { swing: false }).slice(0, 4)).toEqual([0, 0.5, 1, 1.5]);
  });

  it('swings sixteenths within each eighth, where the mark says so', () => {
    const score = swung(line(four, ...notes(16, 0.25)), 2, 1, '16th');
    expect(onsets(score).slice(0, 5)).toEqual([0, 0.333, 0.5, 0.833, 1]);
  });

  it('holds from its mark to the next, which may be straight', () => {
    const score = swung(line(four, ...notes(8, 0.5)), 2, 1);
    const straight = { onsetTicks: 2 * ticksPerQuarter, long: 1, short: 1, unit: 'eighth', isAssumed: false } as const;
    const heard = onsets({ ...score, swings: [...score.swings, straight] });
    expect(heard).toEqual([0, 0.667, 1, 1.667, 2, 2.5, 3, 3.5]);
  });

  it('knows the late half of a beat in a pickup', () => {
    const score = swung(line(pickup(four, 0.5), note('E4', 0.5), ...notes(8, 0.5)), 2, 1);
    expect(onsets(score).slice(0, 4)).toEqual([0, 0.333, 1, 1.333]);
  });

  it('leaves beats of three and tuplets other than triplets even', () => {
    expect(onsets(swung(line(meter(6, 8), ...notes(6, 0.5)), 2, 1))).toEqual([0, 0.5, 1, 1.5, 2, 2.5]);
    expect(onsets(swung(line(four, ...notes(5, 0.2), note('E4', 3)), 2, 1)).slice(0, 5)).toEqual([
      0, 0.2, 0.4, 0.6, 0.8,
    ]);
  });

  it('keeps triplets even, and plays what stands beside them just before their third', () => {
    const third = 1 / 3;
    expect(onsets(swung(line(four, ...notes(3, third), note('E4', 3)), 2, 1)).slice(0, 4)).toEqual([
      0, 0.333, 0.667, 1,
    ]);
    const beside = swung(voices(four, [...notes(3, third), note('E4', 3)], [...notes(2, 0.5), note('C4', 3)]), 2, 1);
    expect(onsets(beside)).toEqual([0, 0, 0.333, 0.657, 0.667, 1, 1]);
  });

  it('moves neither bars nor beats nor a count-in of whole bars', () => {
    const performance = performed(swung(line(four, ...notes(16, 0.5)), 2, 1));
    expect(clicked(performance.clicks, 1)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(countInBefore(performance, 4, 1).lengthSeconds).toBeCloseTo(4, 9);
  });

  it('tells of a ratio that only words ask for', () => {
    const score = swung(line(four, ...notes(8, 0.5)), 2, 1);
    expect(performed(score).notes).toEqual([]);
    const words = { ...score, swings: score.swings.map((mark) => ({ ...mark, isAssumed: true })) };
    expect(performed(words).notes.map(({ code }) => code)).toEqual(['swing-assumed']);
    expect(performed(words, { swing: false }).notes).toEqual([]);
  });
});

describe('[R47] fermatas (common practice, no source: three quarters longer)', () => {
  const held = { techniques: ['fermata'] } as const;

  it('hold their note, and what follows waits', () => {
    const score = at60(line(four, ...notes(3, 1), note('E4', 1, held), note('C4', 4)));
    expect(onsets(score)).toEqual([0, 1, 2, 3, 4.75]);
    expect(performed(score).lengthSeconds).toBeCloseTo(8.75, 9);
    expect(performed(score).events[3]!.ringSeconds).toBeCloseTo(1.75, 9);
    expect(onsets(score, { fermatas: false })).toEqual([0, 1, 2, 3, 4]);
  });

  it('let the beats of a long note pass in time, and wait on the last', () => {
    const performance = performed(at60(line(four, note('E4', 4, held), note('C4', 4))));
    expect(clicked(performance.clicks, 1)).toEqual([0, 1, 2, 3, 7, 8, 9, 10]);
    expect(clicked(performance.clicks, 2).slice(4, 9)).toEqual([2, 2.5, 3, 7, 7.5]);
    expect(ticksAtSeconds(performance.timeMap, 3) / ticksPerQuarter).toBeCloseTo(3, 6);
  });

  it('let other voices play in time up to their last note', () => {
    const score = at60(voices(four, [note('E4', 4, held)], [...notes(8, 0.5)]));
    expect(onsets(score)).toEqual([0, 0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5]);
    expect(performed(score).lengthSeconds).toBeCloseTo(7, 9);
  });

  it('hold a short note as long as a beat asks for', () => {
    const score = at60(line(four, note('E4', 0.5, held), note('C4', 3.5)));
    expect(onsets(score)).toEqual([0, 1.25]);
  });

  it('wait once for notes that are held together, whatever the voices', () => {
    const together = at60(voices(four, [note('E4', 2, held), rest(2)], [note('C4', 2, held), rest(2)]));
    expect(performed(together).lengthSeconds).toBeCloseTo(5.5, 9);
    const staggered = at60(voices(four, [note('E4', 2, held), rest(2)], [note('C4', 1), note('B3', 1, held), rest(2)]));
    expect(performed(staggered).lengthSeconds).toBeCloseTo(5.5, 9);
  });

  it('count in at the tempo of the place', () => {
    const performance = performed(at60(line(four, note('E4', 4, held), ...notes(4, 1))));
    expect(countInBefore(performance, 0, 1).lengthSeconds).toBeCloseTo(4, 9);
    expect(countInBefore(performance, 3.5, 1).lengthSeconds).toBeLessThan(8);
  });

  it('are told', () => {
    const score = at60(line(four, note('E4', 4, held), note('C4', 4)));
    expect(performed(score).notes.map(({ code }) => code)).toEqual(['fermatas-held']);
    const range = { startTicks: 4 * ticksPerQuarter, endTicks: 8 * ticksPerQuarter };
    expect(performed(score, { range }).notes).toEqual([]);
  });
});

describe('[R59] words that ask for slower or faster by and by', () => {
  const words = (text: string, quarter: number) =>
    ({ onsetTicks: quarter * ticksPerQuarter, part: partId('P1'), staff: 1, kind: 'tempo', text }) as const;
  const worded = (...all: readonly ReturnType<typeof words>[]): Score => ({
    ...at60(line(four, ...notes(12, 1))),
    words: all,
  });
  const steps = (score: Score, options: PerformOptions = {}): number[] => {
    const heard = performed(score, options).events.map((event) => event.onsetSeconds);
    return rounded(heard.slice(1).map((onset, index) => onset - heard[index]!));
  };

  it('slow down little by little to three quarters of the tempo, until a tempo', () => {
    const heard = steps(worded(words('rit.', 4), words('a tempo', 8)));
    expect(heard).toEqual([1, 1, 1, 1, 1.042, 1.125, 1.208, 1.292, 1, 1, 1]);
  });

  it('hasten to five quarters of it, until a tempo that differs; half as far where they say poco', () => {
    const score = worded(words('accel.', 0));
    const marked = { ...score, tempos: [...score.tempos, { onsetTicks: 4 * ticksPerQuarter, quartersPerMinute: 120 }] };
    expect(steps(marked)).toEqual([0.975, 0.925, 0.875, 0.825, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5]);
    expect(steps(worded(words('poco a poco string.', 0), words('Tempo I', 4))).slice(0, 4)).toEqual(
      steps(worded(words('un poco stringendo', 0), words('Tempo I', 4))).slice(0, 4),
    );
    expect(steps(worded(words('molto string.', 0), words('Tempo I', 4)))[0]).toBe(0.975);
    expect(steps(worded(words('rit. ma non troppo', 4), words('Tempo I', 8)))[4]).toBe(1.042);
    expect(steps(worded(words('poco rall.', 4), words('Tempo I', 8))).slice(4, 8)).toEqual([
      1.021, 1.063, 1.104, 1.146,
    ]);
  });

  it('say nothing where a number does, or where they are not wanted, or are other words', () => {
    const even = Array.from({ length: 11 }, () => 1);
    expect(steps(worded(words('rit.', 4)), { tempoWords: false })).toEqual(even);
    expect(steps(worded(words('rhythmic', 4), words('Allegro', 6)))).toEqual(even);
    for (const other of ['senza rit.', 'Tempo I, non rall.', 'only the low E string.'])
      expect(steps(worded(words(other, 4)))).toEqual(even);
    const score = worded(words('rit.', 4));
    const numbered = {
      ...score,
      tempos: [...score.tempos, { onsetTicks: 4 * ticksPerQuarter, quartersPerMinute: 30 }],
    };
    expect(steps(numbered)).toEqual([1, 1, 1, 1, 2, 2, 2, 2, 2, 2, 2]);
  });

  it('are told, and leave the timeline of what is written alone', () => {
    const score = worded(words('ritardando', 8));
    expect(performed(score).notes.map(({ code }) => code)).toEqual(['tempo-words-played']);
    expect(timelineOf(score).notes.map(({ onsetSeconds }) => onsetSeconds)).toEqual([...Array(12).keys()]);
  });

  it('let the click go with them', () => {
    const clicks = clicked(performed(worded(words('rit.', 0), words('a tempo', 4))).clicks, 1);
    expect(clicks.slice(0, 5)).toEqual([0, 1.042, 2.167, 3.375, 4.667]);
  });
});

describe('[R32] ticks and seconds, whatever swings and waits', () => {
  const lengths = fc.array(fc.constantFrom(0.25, 0.5, 1 / 3, 0.2, 0.75, 1, 2), { minLength: 4, maxLength: 40 });
  const swings = fc.array(
    fc.record({
      onsetTicks: fc.integer({ min: 0, max: 8 * ticksPerQuarter }),
      long: fc.integer({ min: 1, max: 5 }),
      short: fc.integer({ min: 1, max: 3 }),
      unit: fc.constantFrom('eighth' as const, '16th' as const),
      isAssumed: fc.constant(false),
    }),
    { maxLength: 3 },
  );

  it('rise together and follow from each other', () => {
    fc.assert(
      fc.property(lengths, swings, fc.constantFrom(four, meter(6, 8), meter([3, 2], 8)), (each, marks, theMeter) => {
        const items = each.map((quarters, index) =>
          note('E4', quarters, index % 5 === 3 ? { techniques: ['fermata'] } : {}),
        );
        const sorted = [...marks].sort((a, b) => a.onsetTicks - b.onsetTicks);
        const { timeMap, lengthSeconds } = performed({ ...at60(line(theMeter, ...items)), swings: sorted });
        let before = -1;
        for (let share = 0; share <= 1; share += 1 / 64) {
          const ticks = ticksAtSeconds(timeMap, share * lengthSeconds);
          expect(secondsAtTicks(timeMap, ticks)).toBeCloseTo(share * lengthSeconds, 6);
          expect(ticks).toBeGreaterThan(before);
          before = ticks;
        }
      }),
      { seed: 2026, numRuns: 100 },
    );
  });
});
