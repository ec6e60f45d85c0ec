import { describe, expect, it } from 'vitest';
import { barId } from '../basis/ids.ts';
import { chord, hit, line, meter, note, rest, voices } from '../../tests/support/score-builders.ts';
import type { Item } from '../../tests/support/score-builders.ts';
import { likeBars } from './like-bars.ts';

// Which bars are alike is common practice, no source; each expectation can be read off the notes.
const bar = meter(4, 4);
const quarters = (...names: readonly string[]): readonly Item[] => names.map((name) => note(name, 1));
const told = (score: ReturnType<typeof line>, of = 'b1') =>
  likeBars(score, barId(of)).map(({ bar: other, likeness, semitones }) => [other, likeness, semitones]);

describe('bars that are like a bar', () => {
  it('exactly, at another pitch, or varied by a whole tone at most; others are not', () => {
    const score = line(
      bar,
      ...quarters('C4', 'E4', 'G4', 'E4'),
      ...quarters('C4', 'E4', 'G4', 'E4'),
      ...quarters('F4', 'A4', 'C5', 'A4'),
      ...quarters('C4', 'E4', 'A4', 'E4'),
      ...quarters('C4', 'C4', 'C4', 'B3'),
    );
    expect(told(score)).toEqual([
      ['b2', 'exact', 0],
      ['b3', 'transposed', 5],
      ['b4', 'varied', 0],
    ]);
  });

  it('the same pitches in another rhythm are no exact likeness, and in other places none', () => {
    const score = line(
      bar,
      ...quarters('C4', 'E4', 'G4', 'E4'),
      ...[note('C4', 1), note('E4', 1), note('G4', 1), note('E4', 0.5), rest(0.5)],
      ...[note('C4', 1.5), note('E4', 1), note('G4', 1), note('E4', 0.5)],
    );
    expect(told(score)).toEqual([['b2', 'varied', 0]]);
  });

  it('each note has one counterpart; in a chord by height, also where the bass alone has moved', () => {
    const score = voices(
      bar,
      [chord(['C3', 'E4', 'G4'], 2), ...quarters('C5', 'B4'), chord(['A2', 'E4', 'G4'], 2), ...quarters('C5', 'B4')],
      [hit(4), hit(4)],
    );
    const [found] = likeBars(score, barId('b1'));
    expect(found?.likeness).toBe('varied');
    const names = (id: string) => score.notes.find((one) => one.id === id);
    expect(
      [...(found?.counterparts ?? [])].map(([from, to]) => [names(from)?.onsetTicks, names(to)?.onsetTicks]),
    ).toHaveLength(6);
    for (const [from, to] of found?.counterparts ?? [])
      expect(names(to)!.onsetTicks - names(from)!.onsetTicks).toBe(score.bars[1]!.onsetTicks);
    expect(new Set(found?.counterparts.values()).size).toBe(6);
  });

  it('a note more or less at one place leaves the others with their counterparts', () => {
    const score = line(
      bar,
      ...[chord(['C3', 'E4'], 1), ...quarters('G4', 'A4', 'B4')],
      ...[chord(['C3', 'G3', 'E4'], 1), ...quarters('G4', 'A4', 'B4')],
    );
    const [found] = likeBars(score, barId('b1'));
    expect(found?.likeness).toBe('varied');
    expect([...(found?.counterparts ?? [])].map(([from, to]) => `${from} ${to}`)).toEqual([
      'n2 n8',
      'n1 n6',
      'n3 n9',
      'n4 n10',
      'n5 n11',
    ]);
  });

  it('two notes at some distance, bars of another length, and empty bars are like none', () => {
    const two = [note('C4', 2), note('E4', 2)];
    expect(told(line(bar, ...two, note('D4', 2), note('F4', 2)))).toEqual([]);
    expect(told(line(bar, ...two, ...two))).toEqual([['b2', 'exact', 0]]);
    const short = line(
      [{ meter: bar }, { meter: meter(3, 4) }],
      ...quarters('C4', 'E4', 'G4'),
      rest(1),
      ...quarters('C4', 'E4', 'G4'),
    );
    expect(told(short)).toEqual([]);
    expect(told(line(bar, rest(4), rest(4)))).toEqual([]);
    expect(likeBars(line(bar, ...two), barId('elsewhere'))).toEqual([]);
  });

  it('a tap is like a tap of its kind, not like a slap or a note', () => {
    const taps = (kind: 'lowBody' | 'stringSlap'): readonly Item[] => [hit(1, kind), hit(1), hit(2, 'highBody')];
    const score = line(bar, ...taps('lowBody'), ...taps('lowBody'), ...taps('stringSlap'));
    expect(told(score)).toEqual([['b2', 'exact', 0]]);
  });
});
