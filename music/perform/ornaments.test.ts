import { describe, expect, it } from 'vitest';
import { line, meter, note, rest, chord, type NoteExtra } from '../../tests/support/score-builders.ts';
import { allOn } from '../../tests/support/split-builders.ts';
import type { Key, Ornament, Score } from '../score/score.ts';
import type { SoundEvent } from './performance.ts';
import { performLines } from './perform-lines.ts';
import { timelineOf } from './timeline.ts';

const plainKey: Key = { fifths: 0, mode: null };

function scoreOf(items: Parameters<typeof line>[1][], quartersPerMinute = 60, key = plainKey): Score {
  return {
    ...line([{ meter: meter(4, 4), key }], ...items),
    tempos: [{ onsetTicks: 0, quartersPerMinute }],
  };
}
const eventsOf = (score: Score): readonly SoundEvent[] => performLines(score, allOn(score)).events;
const midiOf = ({ voice }: SoundEvent): number | null => (voice.kind === 'pitched' ? voice.midi : null);
const rounded = (seconds: number): number => Math.round(seconds * 1000) / 1000;

/** `0:64 0.125:62`, seconds and pitches of what is struck for the first note. */
const struck = (score: Score): string =>
  eventsOf(score)
    .filter((event) => event.note === 'n1')
    .map((event) => `${rounded(event.onsetSeconds)}:${midiOf(event)}`)
    .join(' ');
const played = (ornament: Ornament, quarters = 1, name = 'E4', extra: NoteExtra = {}): string =>
  struck(scoreOf([note(name, quarters, { ...extra, ornaments: [ornament] }), rest(4 - quarters)]));

describe('[R60] ornaments are played within their note (common practice, no source)', () => {
  it.each([
    [{ kind: 'mordent' }, '0:64 0.125:62 0.25:64'],
    [{ kind: 'invertedMordent' }, '0:64 0.125:65 0.25:64'],
    [{ kind: 'turn' }, '0:65 0.125:64 0.25:62 0.375:64'],
    [{ kind: 'invertedTurn' }, '0:62 0.125:64 0.25:65 0.375:64'],
    [{ kind: 'delayedTurn' }, '0:64 0.5:65 0.625:64 0.75:62 0.875:64'],
    [{ kind: 'delayedInvertedTurn' }, '0:64 0.5:62 0.625:64 0.75:65 0.875:64'],
    [{ kind: 'trill' }, '0:64 0.143:65 0.286:64 0.429:65 0.571:64 0.714:65 0.857:64'],
    [{ kind: 'tremolo', strokes: 1 }, '0:64 0.5:64'],
    [{ kind: 'tremolo', strokes: 3 }, '0:64 0.125:64 0.25:64 0.375:64 0.5:64 0.625:64 0.75:64 0.875:64'],
  ] as const)('%j on E4', (ornament, expected) => {
    expect(played(ornament)).toBe(expected);
  });

  it('neighbours are those of the key, or of the accidental that is told', () => {
    const trill = (ornament: Ornament, key: Key): number | null =>
      midiOf(eventsOf(scoreOf([note('E4', 4, { ornaments: [ornament] })], 60, key))[1]!);
    expect(trill({ kind: 'trill' }, { fifths: 1, mode: null })).toBe(66);
    expect(trill({ kind: 'trill', alterAbove: 0 }, { fifths: 1, mode: null })).toBe(65);
    expect(trill({ kind: 'mordent' }, { fifths: -2, mode: null })).toBe(62);
    expect(trill({ kind: 'mordent', alterBelow: 1 }, plainKey)).toBe(63);
  });

  it('a trill has at most fourteen notes a second, and begins and ends with its main note', () => {
    for (const tempo of [30, 60, 97, 120, 200, 300]) {
      const events = eventsOf(scoreOf([note('B4', 4, { ornaments: [{ kind: 'trill' }] })], tempo));
      const gaps = events.slice(1).map((event, index) => event.onsetSeconds - events[index]!.onsetSeconds);
      expect(Math.min(...gaps)).toBeGreaterThan(1 / 14 - 1e-9);
      expect(Math.max(...gaps)).toBeLessThan(0.15);
      expect([midiOf(events[0]!), midiOf(events[1]!), midiOf(events.at(-1)!)]).toEqual([71, 72, 71]);
    }
  });

  it('a note without time for one is played plainly', () => {
    expect(struck(scoreOf([note('E4', 0.5, { ornaments: [{ kind: 'trill' }] }), rest(3.5)], 200))).toBe('0:64');
    expect(struck(scoreOf([note('E4', 0.5, { ornaments: [{ kind: 'turn' }] }), rest(3.5)], 120))).toBe('0:64');
  });

  it('strokes halve the value of a short note, and no hand is quicker than sixteen a second', () => {
    expect(played({ kind: 'tremolo', strokes: 1 }, 0.5)).toBe('0:64 0.25:64');
    expect(played({ kind: 'tremolo', strokes: 1 }, 0.75)).toBe('0:64 0.25:64 0.5:64');
    const fast = eventsOf(scoreOf([note('E4', 4, { ornaments: [{ kind: 'tremolo', strokes: 4 }] })], 120));
    expect(fast).toHaveLength(32);
  });

  it.each([{ kind: 'trill' }, { kind: 'tremolo', strokes: 4 }] as const)(
    '%j without end is played plainly',
    (ornament) => {
      expect(eventsOf(scoreOf([note('E4', 400, { ornaments: [ornament] })], 30))).toHaveLength(1);
    },
  );

  it('no more are played than a hundred thousand strikes', () => {
    const struckOften = note('E4', 4, { ornaments: [{ kind: 'tremolo', strokes: 4 }] });
    const score = scoreOf(Array.from({ length: 1600 }, () => struckOften));
    expect(eventsOf(score)).toHaveLength(1563 * 64 + 37);
  });

  it('strokes are for all notes of their chord', () => {
    const struckTogether = chord(['C4', 'E4'], 4, {});
    const score = scoreOf([struckTogether]);
    const [first, second] = score.notes;
    const notes = [{ ...first!, ornaments: [{ kind: 'tremolo' as const, strokes: 1 }] }, second!];
    expect(eventsOf({ ...score, notes }).map(({ note: id, onsetSeconds }) => `${id}@${onsetSeconds}`)).toEqual(
      [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5].flatMap((seconds) => [`n1@${seconds}`, `n2@${seconds}`]),
    );
  });

  it('neighbours are hammered on their string, each strike until the next; strokes are plucked', () => {
    const place = { string: 1, fret: 5 };
    const [first, below, last] = eventsOf(scoreOf([note('A4', 4, { ...place, ornaments: [{ kind: 'mordent' }] })]));
    const strokeOf = ({ voice }: SoundEvent): unknown => (voice.kind === 'pitched' ? voice.stroke : null);
    expect([first, below, last].map((event) => strokeOf(event!))).toEqual(['pluck', 'legato', 'legato']);
    expect([first, below, last].map((event) => event!.fret)).toEqual([5, 3, 5]);
    expect([first!.ringSeconds, below!.ringSeconds, last!.ringSeconds].map(rounded)).toEqual([0.125, 0.125, 7.75]);
    const strokes = eventsOf(scoreOf([note('A4', 4, { ...place, ornaments: [{ kind: 'tremolo', strokes: 1 }] })]));
    expect(new Set(strokes.map(strokeOf))).toEqual(new Set(['pluck']));
  });

  it('an accent is for the first strike; a hairpin goes on through the strokes', () => {
    const tremolo = { ornaments: [{ kind: 'tremolo', strokes: 1 }] } as const;
    const strengths = (score: Score): number[] => eventsOf(score).map(({ strength }) => strength);
    const accented = strengths(scoreOf([note('E4', 4, { ...tremolo, techniques: ['accent'] })]));
    expect(accented[0]! - accented[1]!).toBeGreaterThan(0.12);
    const score = scoreOf([note('E4', 4, tremolo)]);
    const endTicks = score.bars[0]!.lengthTicks;
    const hairpin = { kind: 'hairpin', onsetTicks: 0, endTicks, direction: 'louder' } as const;
    const swelling = strengths({ ...score, dynamics: [hairpin] }).slice(1);
    expect(swelling.every((strength, index) => index === 0 || strength > swelling[index - 1]!)).toBe(true);
  });

  it('the timeline has one row for the written note', () => {
    expect(timelineOf(scoreOf([note('E4', 4, { ornaments: [{ kind: 'trill' }] })])).notes).toHaveLength(1);
  });
});
