import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fraction } from '../basis/fraction.ts';
import type { NoteId } from '../basis/ids.ts';
import { midiOf, type Pitch } from '../basis/pitch.ts';
import { excerptOfBars, ticksOfExcerpt, type Excerpt, type TickRange } from '../score/excerpt.ts';
import type { Score, SoundingNote } from '../score/score.ts';
import type { NoteValue, WrittenScore, WrittenStaff } from '../score/written.ts';
import { anyOneVoice, anyTwoVoices } from '../../tests/support/any-score.ts';
import { fixedSeed } from '../../tests/support/property-seed.ts';
import { allOn, splitOf } from '../../tests/support/split-builders.ts';
import { looseNotes } from './checks.ts';
import type { LengthMode } from './lengths.ts';
import { writeOut } from './write-out.ts';

const wholeNotes: Readonly<Record<string, number>> = {
  maxima: 8,
  long: 4,
  breve: 2,
  whole: 1,
  half: 1 / 2,
  quarter: 1 / 4,
  eighth: 1 / 8,
  '16th': 1 / 16,
  '32nd': 1 / 32,
  '64th': 1 / 64,
  '128th': 1 / 128,
  '256th': 1 / 256,
};

/** What a printed value lasts. **Source** MusicXML 4.0, note-type, dot and time-modification. */
function printedTicks({ type, dots, tuplet }: NoteValue, ticksPerQuarter: number): number {
  const dotted = wholeNotes[type]! * (2 - 1 / 2 ** dots);
  return (dotted * 4 * ticksPerQuarter * (tuplet?.normal ?? 1)) / (tuplet?.actual ?? 1);
}

const inexactCount = (written: WrittenScore): number =>
  written.staves[0]!.bars.flat()
    .filter(({ isBarRest }) => !isBarRest)
    .filter(({ value, lengthTicks }) => Math.abs(printedTicks(value, written.ticksPerQuarter) - lengthTicks) > 1e-6)
    .length;

const anyScore = fc.oneof(anyOneVoice, anyTwoVoices);
const anyLengths = fc.constantFrom<LengthMode>('written', 'next', 'string');

/** From one eighth of the score to a later one. */
const anyExcerptOf = (score: Score): fc.Arbitrary<Excerpt> => {
  const places = score.bars.flatMap((bar) =>
    Array.from({ length: Math.floor((bar.lengthTicks * 2) / score.ticksPerQuarter) }, (_unused, half) => ({
      bar: bar.id,
      offset: fraction(half, 2),
    })),
  );
  const last = score.bars.at(-1)!;
  const end = { bar: last.id, offset: fraction(last.lengthTicks, score.ticksPerQuarter) };
  return fc.uniqueArray(fc.nat({ max: places.length }), { minLength: 2, maxLength: 2 }).map((picked) => {
    const [from, to] = picked.toSorted((left, right) => left - right);
    return { from: places[from!]!, to: places[to!] ?? end };
  });
};

const anyJob = anyScore.chain((score) => fc.tuple(fc.constant(score), anyExcerptOf(score), anyLengths));

interface Sounding {
  readonly onsetTicks: number;
  lengthTicks: number;
}

/** What is heard of a written-out staff: each source note once, its ties joined. */
function heard(written: WrittenScore, range: TickRange): ReadonlyMap<NoteId, Sounding> {
  const sounding = new Map<NoteId, Sounding>();
  let barTicks = range.startTicks;
  for (const [index, bar] of written.bars.entries()) {
    for (const event of written.staves[0]!.bars[index]!) {
      for (const head of event.heads) {
        const before = sounding.get(head.source);
        expect(head.isTiedFromBefore).toBe(before !== undefined);
        if (before === undefined) {
          sounding.set(head.source, { onsetTicks: barTicks + event.onsetTicks, lengthTicks: event.lengthTicks });
        } else {
          expect(before.onsetTicks + before.lengthTicks).toBe(barTicks + event.onsetTicks);
          before.lengthTicks += event.lengthTicks;
        }
      }
    }
    barTicks += bar.lengthTicks;
  }
  return sounding;
}

const idsOf = (notes: readonly SoundingNote[]): readonly NoteId[] => notes.map(({ id }) => id);

/** Which note is struck, when, and at what pitch. */
const strike = (id: NoteId, onsetTicks: number, pitch: Pitch | null): string =>
  `${id} ${onsetTicks} ${pitch === null ? 'x' : midiOf(pitch)}`;

const strikeOf = ({ id, onsetTicks, sound }: SoundingNote): string =>
  strike(id, onsetTicks, sound.kind === 'pitched' ? sound.sounding : null);

/** All that a staff strikes, in the ticks of the score. */
function struckIn({ bars }: WrittenScore, staff: WrittenStaff): readonly string[] {
  let barTicks = 0;
  return staff.bars.flatMap((events, index) => {
    const startTicks = barTicks;
    barTicks += bars[index]!.lengthTicks;
    return events.flatMap(({ heads, onsetTicks }) =>
      heads
        .filter(({ isTiedFromBefore }) => !isTiedFromBefore)
        .map(({ source, sound }) =>
          strike(source, startTicks + onsetTicks, sound.kind === 'pitched' ? sound.pitch : null),
        ),
    );
  });
}

const check = <Case>(arbitrary: fc.Arbitrary<Case>, property: (value: Case) => void): void =>
  fc.assert(fc.property(arbitrary, property), { seed: fixedSeed, numRuns: 600 });

describe('any written-out line', () => {
  it('[R14] every bar sums to its own length, and the bars to the excerpt', () => {
    check(anyJob, ([score, excerpt, lengths]) => {
      const { value } = writeOut(score, allOn(score), excerpt, { lengths });
      const range = ticksOfExcerpt(score, excerpt)!;
      expect(value.bars.reduce((sum, bar) => sum + bar.lengthTicks, 0)).toBe(range.endTicks - range.startTicks);
      for (const [index, bar] of value.bars.entries()) {
        let cursor = 0;
        for (const event of value.staves[0]!.bars[index]!) {
          expect(event.onsetTicks).toBe(cursor);
          expect(event.lengthTicks).toBeGreaterThan(0);
          cursor += event.lengthTicks;
        }
        expect(cursor).toBe(bar.lengthTicks);
      }
    });
  });

  it('[R17] every printed value of one voice says its length exactly', () => {
    const job = anyOneVoice.chain((score) => fc.tuple(fc.constant(score), anyExcerptOf(score), anyLengths));
    check(job, ([score, excerpt, lengths]) => {
      const { value, issues } = writeOut(score, allOn(score), excerpt, { lengths });
      expect(issues).toEqual([]);
      expect(inexactCount(value)).toBe(0);
    });
  });

  it('[R18] where two voices make a rhythm that no value says, there is an issue for each', () => {
    const job = anyTwoVoices.chain((score) => fc.tuple(fc.constant(score), anyExcerptOf(score), anyLengths));
    check(job, ([score, excerpt, lengths]) => {
      const { value, issues } = writeOut(score, allOn(score), excerpt, { lengths });
      expect(inexactCount(value)).toBeLessThanOrEqual(issues.length);
      expect(issues.every(({ code }) => code === 'value-repaired')).toBe(true);
    });
  });

  it('[R18] every tuplet is bracketed once and is filled', () => {
    check(anyJob, ([score, excerpt, lengths]) => {
      const { value } = writeOut(score, allOn(score), excerpt, { lengths });
      for (const events of value.staves[0]!.bars) {
        let open: NoteValue['tuplet'] = null;
        let inner: NoteValue['tuplet'] = null;
        for (const event of events) {
          expect(open !== null).toBe(event.value.tuplet !== null && event.tupletEdge !== 'start');
          expect(inner).toSatisfy(
            () => event.innerTuplet === null || (inner === null) === (event.innerTuplet.edge === 'start'),
          );
          if (event.innerTuplet?.edge === 'start') inner = event.innerTuplet;
          const [actual, normal] = [inner?.actual ?? 1, inner?.normal ?? 1];
          if (event.tupletEdge === 'start')
            open = { actual: event.value.tuplet!.actual / actual, normal: event.value.tuplet!.normal / normal };
          if (open !== null)
            expect(event.value.tuplet).toEqual({ actual: open.actual * actual, normal: open.normal * normal });
          if (event.innerTuplet?.edge === 'stop') inner = null;
          if (event.tupletEdge === 'stop') open = null;
        }
        expect(inner).toBeNull();
        expect(open).toBeNull();
      }
    });
  });

  it('[R21] every note struck within the excerpt appears once, with its ties joined, and no other', () => {
    check(anyJob, ([score, excerpt, lengths]) => {
      const range = ticksOfExcerpt(score, excerpt)!;
      const sounding = heard(writeOut(score, allOn(score), excerpt, { lengths }).value, range);
      const struck = score.notes.filter(
        ({ onsetTicks }) => onsetTicks >= range.startTicks && onsetTicks < range.endTicks,
      );
      expect([...sounding.keys()].sort()).toEqual(struck.map(({ id }) => id).sort());
      for (const source of struck) expect(sounding.get(source.id)!.onsetTicks).toBe(source.onsetTicks);
    });
  });

  it('[R21] as written, a line sounds the same as its source where nothing overlaps', () => {
    check(
      anyOneVoice.chain((score) => fc.tuple(fc.constant(score), anyExcerptOf(score))),
      ([score, excerpt]) => {
        const range = ticksOfExcerpt(score, excerpt)!;
        const sounding = heard(writeOut(score, allOn(score), excerpt, { lengths: 'written' }).value, range);
        for (const source of score.notes.filter(({ id, sound }) => sounding.has(id) && sound.kind === 'pitched')) {
          const untilTicks = Math.min(source.onsetTicks + source.lengthTicks, range.endTicks);
          expect(sounding.get(source.id)!.lengthTicks).toBe(untilTicks - source.onsetTicks);
        }
      },
    );
  });

  it('[R16] rests are dotted in compound time or tuplets only', () => {
    check(anyJob, ([score, excerpt, lengths]) => {
      const { value } = writeOut(score, allOn(score), excerpt, { lengths });
      for (const [index, { meter }] of value.bars.entries()) {
        const isSimple = meter.beats.length === 1 && [1, 2, 4].includes(meter.beats[0]!) && meter.beatUnit <= 4;
        const rests = value.staves[0]!.bars[index]!.filter(({ heads, isBarRest }) => heads.length === 0 && !isBarRest);
        if (isSimple) expect(rests.filter((event) => event.value.dots > 0 && event.value.tuplet === null)).toEqual([]);
      }
    });
  });

  it('[R21] all lines and the loose notes together are the score, each line at the onsets and pitches of its marks', () => {
    const job = anyScore.chain((score) =>
      fc.tuple(fc.constant(score), fc.array(fc.nat({ max: 3 }), { minLength: score.notes.length }), anyLengths),
    );
    check(job, ([score, placed, lengths]) => {
      const onLine = (line: number): readonly SoundingNote[] =>
        score.notes.filter((_note, index) => placed[index] === line);
      const split = splitOf({ a: idsOf(onLine(0)), b: idsOf(onLine(1)), c: idsOf(onLine(2)) });
      const last = score.bars.at(-1)!;
      const whole = excerptOfBars(score, score.bars[0]!.id, last.id)!;
      const { value } = writeOut(score, split, whole, { lengths });
      const written = value.staves.map((staff) => struckIn(value, staff));
      written.forEach((found, line) => expect(found.toSorted()).toEqual(onLine(line).map(strikeOf).toSorted()));
      const all = [...written.flat(), ...looseNotes(score, split).map(strikeOf)];
      expect(all.toSorted()).toEqual(score.notes.map(strikeOf).toSorted());
    });
  });
});
