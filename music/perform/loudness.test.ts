import { describe, expect, it } from 'vitest';
import { lineId, partId } from '../basis/ids.ts';
import type { DynamicMark, Score } from '../score/score.ts';
import { line, meter, note, ticksPerQuarter, voices } from '../../tests/support/score-builders.ts';
import { allOn, splitOf } from '../../tests/support/split-builders.ts';
import { expressionSchema, plainExpression, type Expression } from './expression.ts';
import type { Performance } from './performance.ts';
import { performLines, type PerformOptions } from './perform-lines.ts';

const eight = Array.from({ length: 8 }, () => note('E4', 1));
const at60 = (score: Score): Score => ({ ...score, tempos: [{ onsetTicks: 0, quartersPerMinute: 60 }] });
const dynamics: readonly DynamicMark[] = [
  { kind: 'level', onsetTicks: 0, level: 'p' },
  { kind: 'level', onsetTicks: 4 * ticksPerQuarter, level: 'f' },
];
const score: Score = { ...at60(line(meter(4, 4), ...eight)), dynamics };
const strengths = (asked: Score, options: PerformOptions = {}): number[] =>
  performLines(asked, allOn(asked), options).events.map((event) => event.strength);
const adjusted = (change: Partial<Expression>): number[] =>
  strengths(score, { expression: { ...plainExpression, ...change } });

/** Sound grows with the square of strength, in the string, hit and hum voices alike. */
const decibels = (strength: number, of: number): number => 40 * Math.log10(strength / of);

describe('[R50] a teacher’s expression', () => {
  const plain = strengths(score);

  it('changes nothing where it is plain', () => {
    expect(adjusted({})).toEqual(plain);
    expect(expressionSchema.parse(plainExpression)).toEqual(plainExpression);
  });

  it('flattens and doubles what is written within lines', () => {
    const flat = adjusted({ dynamicsPercent: 0 });
    expect(flat[0]).toBeCloseTo(flat[4]!, 9);
    const doubled = adjusted({ dynamicsPercent: 200 });
    expect(doubled[4]! - doubled[0]!).toBeCloseTo(2 * (plain[4]! - plain[0]!), 6);
  });

  it('takes accents and meter away, or makes them stronger', () => {
    expect(plain[0]).not.toBeCloseTo(plain[1]!, 3);
    const even = adjusted({ stressPercent: 0 });
    expect(even[0]).toBeCloseTo(even[1]!, 9);
    const stressed = adjusted({ stressPercent: 200 });
    expect(stressed[0]! - stressed[1]!).toBeCloseTo(2 * (plain[0]! - plain[1]!), 6);
  });

  it('moves one line by decibels and bends its dynamics alone', () => {
    const two = at60(voices(meter(4, 4), eight.slice(0, 4), eight.slice(0, 4)));
    const split = splitOf({ melody: ['n1', 'n3', 'n5', 'n7'], middle: ['n2', 'n4', 'n6', 'n8'] });
    const perform = (expression: Expression): Performance => performLines(two, split, { expression });
    const lines = [{ line: lineId('middle'), levelDb: -6, dynamicsPercent: 100 }];
    const [before, after] = [plainExpression, { ...plainExpression, lines }].map((each) => perform(each).events);
    for (const [index, event] of after!.entries())
      expect(decibels(event.strength, before![index]!.strength)).toBeCloseTo(event.line === 'middle' ? -6 : 0, 6);
  });

  it('moves a section from its bar to the next one listed', () => {
    const [first, second] = score.bars;
    const sections = [
      { startBar: second!.id, levelDb: 0, dynamicsPercent: 100 },
      { startBar: first!.id, levelDb: -3, dynamicsPercent: 100 },
    ];
    const changes = adjusted({ sections }).map((strength, index) => decibels(strength, plain[index]!));
    expect(changes.map((change) => Math.round(change * 1000) / 1000 + 0)).toEqual([-3, -3, -3, -3, 0, 0, 0, 0]);
  });

  it('stays between silence and as hard as one can', () => {
    const lines = [{ line: lineId('melody'), levelDb: 12, dynamicsPercent: 200 }];
    for (const strength of adjusted({ lines, stressPercent: 200 })) {
      expect(strength).toBeGreaterThan(0);
      expect(strength).toBeLessThanOrEqual(1);
    }
  });
});

describe('[R34] momentary signs (common practice, no source)', () => {
  const quarters = (sign: Extract<DynamicMark, { kind: 'accent' }>['sign']): number[] =>
    strengths({ ...score, dynamics: [{ kind: 'accent', onsetTicks: ticksPerQuarter, sign }] });
  const unmarked = strengths({ ...score, dynamics: [] });

  it('sfz is for what is struck there alone', () => {
    const heard = quarters('sfz');
    expect(heard[1]!).toBeGreaterThan(unmarked[1]! + 0.1);
    expect(heard.slice(2)).toEqual(unmarked.slice(2));
  });

  it('fp goes on softly', () => {
    const heard = quarters('fp');
    expect(heard[1]!).toBeGreaterThan(unmarked[1]!);
    expect(heard[2]!).toBeLessThan(unmarked[2]! - 0.1);
  });
});

describe('[R34] dynamics of several parts (MusicXML 4.0, direction: it belongs to its part)', () => {
  const [lead, back] = [partId('P1'), partId('P2')];
  const two = at60(voices(meter(4, 4), eight.slice(0, 4), eight.slice(0, 4)));
  const notes = two.notes.map((each, index) =>
    index % 2 === 0 ? each : { ...each, voices: each.voices.map((voice) => ({ ...voice, part: back, staff: 2 })) },
  );
  const marked = (...marks: readonly DynamicMark[]): number[] => strengths({ ...two, notes, dynamics: marks });
  const ofLead = (all: readonly number[]): number[] => all.filter((_, index) => index % 2 === 0);
  const ofBack = (all: readonly number[]): number[] => all.filter((_, index) => index % 2 === 1);
  const plain = marked();

  it('are for the part that says them, on all its staves', () => {
    const soft = marked({ kind: 'level', onsetTicks: 0, level: 'pp', parts: [back] });
    expect(ofLead(soft)).toEqual(ofLead(plain));
    for (const [index, strength] of ofBack(soft).entries()) expect(strength).toBeLessThan(ofBack(plain)[index]! - 0.1);
  });

  it('are for the staff that they name', () => {
    const heard = strengths({
      ...two,
      notes: two.notes.map((each, index) => ({
        ...each,
        voices: each.voices.map((voice) => ({ ...voice, part: lead, staff: 1 + (index % 2) })),
      })),
      dynamics: [
        { kind: 'level', onsetTicks: 0, level: 'ff', parts: [lead], staves: [1] },
        { kind: 'level', onsetTicks: 0, level: 'pp', parts: [lead], staves: [2] },
        { kind: 'level', onsetTicks: 3 * ticksPerQuarter, level: 'mf', parts: [lead] },
      ],
    });
    const over = ofLead(heard).map((strength, index) => strength - ofLead(plain)[index]!);
    const under = ofBack(heard).map((strength, index) => strength - ofBack(plain)[index]!);
    for (const difference of over.slice(0, 3)) expect(difference).toBeGreaterThan(0.1);
    for (const difference of under.slice(0, 3)) expect(difference).toBeLessThan(-0.1);
    expect([over[3], under[3]]).toEqual([0, 0]);
  });

  it('are for everybody where no part is named, and a hairpin leads to its own part’s level', () => {
    const hairpin = { onsetTicks: 0, endTicks: 2 * ticksPerQuarter, kind: 'hairpin', direction: 'louder' } as const;
    const later = 2 * ticksPerQuarter;
    const heard = marked(
      { kind: 'level', onsetTicks: 0, level: 'mp' },
      { ...hairpin, parts: [lead] },
      { kind: 'level', onsetTicks: later, level: 'pp', parts: [back] },
      { kind: 'level', onsetTicks: later, level: 'ff', parts: [lead] },
    );
    expect(heard[0]).toBe(heard[1]);
    expect(heard[0]!).toBeLessThan(plain[0]!);
    expect(ofLead(heard)[1]!).toBeGreaterThan(ofBack(heard)[1]! + 0.1);
    expect(ofLead(heard)[2]!).toBeGreaterThan(ofLead(heard)[1]!);
    expect(ofBack(heard)[2]!).toBeLessThan(ofBack(heard)[1]!);
  });
});

describe('[R51] unevenness', () => {
  const many = at60(voices(meter(4, 4), eight, eight));
  const split = splitOf({ melody: many.notes.filter((_, index) => index % 2 === 0).map(({ id }) => id) });
  const perform = (options: PerformOptions): Performance => performLines(many, split, options);
  const even = perform({});
  const human = { seed: 7, amount: 1 };

  it('is off unless asked for, and nothing at the amount of 0', () => {
    expect(perform({ human: null }).events).toEqual(even.events);
    expect(perform({ human: { seed: 7, amount: 0 } }).events).toEqual(even.events);
  });

  it('is small, late, never early, and leaves time, click and order of notes alone', () => {
    const played = perform({ human });
    const onsetOf = new Map(even.events.map((event) => [event.note, event.onsetSeconds]));
    const late = played.events.map((event) => event.onsetSeconds - onsetOf.get(event.note)!);
    expect(Math.min(...late)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...late)).toBeLessThanOrEqual(0.012);
    expect(new Set(late).size).toBeGreaterThan(8);
    expect([played.timeMap, played.clicks]).toEqual([even.timeMap, even.clicks]);
    for (const event of played.events) {
      const before = even.events.find((each) => each.note === event.note)!;
      expect(Math.abs(event.strength - before.strength)).toBeLessThan(0.06);
    }
  });

  it('hangs on the seed alone, and not on which lines are heard', () => {
    const all = perform({ human });
    expect(perform({ human })).toEqual(all);
    expect(perform({ human: { seed: 8, amount: 1 } }).events).not.toEqual(all.events);
    const without = performLines(many, split, { human, lines: [] }).events;
    expect(without).toEqual(all.events.filter((event) => event.line === null));
  });
});
