import { describe, expect, it } from 'vitest';
import { noteId } from '../basis/ids.ts';
import type { Bend } from '../score/marks.ts';
import type { Score } from '../score/score.ts';
import { chord, hit, line, meter, note, type Item } from '../../tests/support/score-builders.ts';
import { allOn } from '../../tests/support/split-builders.ts';
import type { PitchPoint, SoundEvent } from './performance.ts';
import { performLines } from './perform-lines.ts';

const scoreOf = (...items: readonly Item[]): Score => ({
  ...line(meter(4, 4), ...items),
  tempos: [{ onsetTicks: 0, quartersPerMinute: 60 }],
});
const eventsOf = (score: Score): readonly SoundEvent[] => performLines(score, allOn(score)).events;

/** The pitch at a moment, straight between points. **Units** cents. */
function centsAt(points: readonly PitchPoint[], seconds: number): number {
  const next = points.findIndex(({ atSeconds }) => atSeconds > seconds);
  const [before, after] = [points[next < 0 ? points.length - 1 : next - 1], points[next]];
  if (before === undefined) return after?.cents ?? 0;
  if (after === undefined) return before.cents;
  return (
    before.cents + ((after.cents - before.cents) * (seconds - before.atSeconds)) / (after.atSeconds - before.atSeconds)
  );
}

const isRising = (points: readonly PitchPoint[]): boolean =>
  points.every(({ atSeconds }, index) => index === 0 || atSeconds > points[index - 1]!.atSeconds);

describe('[R48] bends (MusicXML 4.0, bend: semitones; a release goes back by its negative value)', () => {
  const bent = (...stages: readonly Pick<Bend, 'kind' | 'semitones'>[]): readonly PitchPoint[] => {
    const score = scoreOf(note('G4', 2, { string: 2, fret: 8, techniques: ['bend'] }), note('E4', 2));
    const bends = stages.map((stage) => ({ ...stage, note: noteId('n1') }));
    return eventsOf({ ...score, bends })[0]!.glide;
  };

  it('rise from the fret’s pitch and stay', () => {
    const points = bent({ kind: 'bend', semitones: 2 });
    expect(isRising(points)).toBe(true);
    expect([0, 1, 2].map((seconds) => centsAt(points, seconds))).toEqual([0, 200, 200]);
  });

  it('go back in the note’s second half', () => {
    const points = bent({ kind: 'bend', semitones: 1.5 }, { kind: 'release', semitones: -1.5 });
    expect(isRising(points)).toBe(true);
    expect([0, 0.9, 2].map((seconds) => centsAt(points, seconds))).toEqual([0, 150, 0]);
  });

  it('begin bent, where the string is bent before it is plucked', () => {
    const points = bent({ kind: 'preBend', semitones: 1 }, { kind: 'release', semitones: -1 });
    expect([0, 0.9, 2].map((seconds) => centsAt(points, seconds))).toEqual([100, 100, 0]);
    expect(bent({ kind: 'preBend', semitones: 1 })).toEqual([{ atSeconds: 0, cents: 100 }]);
  });

  it('are a whole tone where nothing says how far (common practice, no source)', () => {
    expect(centsAt(bent(), 2)).toBe(200);
  });
});

describe('[R48] vibrato (from memory, no source)', () => {
  const vibrato = (quarters: number, fret: number, ...more: readonly Item[]): readonly SoundEvent[] =>
    eventsOf(scoreOf(note('A4', quarters, { string: 1, fret, techniques: ['vibrato'] }), ...more));

  it('swings evenly about the pitch once the note has stood, and comes to rest', () => {
    const points = vibrato(2, 5, note('E4', 2))[0]!.glide;
    expect(isRising(points)).toBe(true);
    expect(centsAt(points, 0.15)).toBe(0);
    const swings = points.slice(2, -1);
    expect(swings.length).toBeGreaterThan(10);
    expect(swings.map(({ cents }) => Math.abs(cents))).toEqual(swings.map(() => 12));
    for (const [index, { cents }] of swings.entries()) expect(Math.sign(cents)).toBe(index % 2 === 0 ? 1 : -1);
    expect(points.at(-1)!.cents).toBe(0);
  });

  it('stops before a slide, and is not for open strings or notes that are over too soon', () => {
    const [from] = vibrato(1, 5, note('B4', 3, { string: 1, fret: 7, techniques: ['slide'] }));
    expect(isRising(from!.glide)).toBe(true);
    expect(from!.glide.at(-1)).toEqual({ atSeconds: 1, cents: 200 });
    expect(vibrato(4, 0)[0]!.glide).toEqual([]);
    expect(vibrato(0.25, 5, note('E4', 3.75))[0]!.glide).toEqual([]);
  });
});

describe('[R49] slides', () => {
  it('reach the next note as it begins, which is not plucked again', () => {
    const score = scoreOf(
      note('G4', 1, { string: 1, fret: 3 }),
      note('A4', 1, { string: 1, fret: 5, techniques: ['slide'] }),
      note('E4', 2),
    );
    const [from, to] = eventsOf(score);
    expect([0, 0.8, 1].map((seconds) => centsAt(from!.glide, seconds))).toEqual([0, 0, 200]);
    expect(from!.ringSeconds).toBeCloseTo(1, 9);
    expect(to!.glide).toEqual([]);
    expect(to!.voice).toMatchObject({ stroke: 'legato' });
  });

  it('come from the last note on their string, past what others play meanwhile', () => {
    const score = scoreOf(
      note('B3', 1, { string: 2, fret: 0 }),
      note('E4', 1, { string: 1, fret: 0 }),
      note('D4', 2, { string: 2, fret: 3, techniques: ['slide'] }),
    );
    const [from, other] = eventsOf(score);
    expect(centsAt(from!.glide, 2)).toBe(300);
    expect(other!.glide).toEqual([]);
  });

  it('come from the nearest note of a chord where no strings are known', () => {
    const score = scoreOf(chord(['C4', 'G4'], 1), note('A4', 1, { techniques: ['slide'] }), note('E4', 2));
    const events = eventsOf(score);
    expect(events.map(({ glide }) => centsAt(glide, 1))).toEqual([0, 200, 0, 0]);
  });

  it('come from a grace note too', () => {
    const score = scoreOf(note('E4', 2), note('A4', 2, { string: 1, fret: 5, techniques: ['slide'] }));
    const [g4] = scoreOf(note('G4', 1)).notes;
    const fingerboard = { string: 1, fret: 3 };
    const grace = { id: noteId('g1'), main: noteId('n2'), sound: g4!.sound, heads: [], fingerboard, hasSlash: false };
    const events = eventsOf({ ...score, graces: [grace] });
    expect(events.map((event) => event.note)).toEqual(['n1', 'g1', 'n2']);
    expect(centsAt(events[1]!.glide, 1)).toBe(200);
  });

  it('without a goal fall at the end, without an origin rise into the note, as far as the fret allows', () => {
    const out = eventsOf(scoreOf(note('A4', 1, { string: 1, fret: 5, techniques: ['slideOut'] }), note('E4', 3)))[0]!;
    expect([0, 0.5, 1].map((seconds) => centsAt(out.glide, seconds))).toEqual([0, 0, -300]);
    expect(out.ringSeconds).toBeCloseTo(1, 9);
    const into = (fret: number): readonly PitchPoint[] =>
      eventsOf(scoreOf(note('A4', 4, { string: 1, fret, techniques: ['slideIn'] })))[0]!.glide;
    expect([0, 1].map((seconds) => centsAt(into(5), seconds))).toEqual([-200, 0]);
    expect(centsAt(into(2), 0)).toBe(-100);
    expect(into(0)).toEqual([]);
  });

  it('come from above and leave upwards, where the sign says so', () => {
    const plain = { string: 1, fret: 5 } as const;
    const [into, out] = eventsOf(
      scoreOf(
        note('A4', 2, { ...plain, techniques: ['slideInFromAbove'] }),
        note('A4', 2, { ...plain, techniques: ['slideOutUpwards'] }),
      ),
    );
    expect([0, 1].map((seconds) => centsAt(into!.glide, seconds))).toEqual([200, 0]);
    expect([0, 1, 2].map((seconds) => centsAt(out!.glide, seconds))).toEqual([0, 0, 300]);
  });

  it('leave hits and steady notes alone', () => {
    expect(eventsOf(scoreOf(hit(1), note('E4', 3))).map(({ glide }) => glide)).toEqual([[], []]);
  });
});
