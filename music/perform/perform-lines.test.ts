import { describe, expect, it } from 'vitest';
import { lineId, noteId } from '../basis/ids.ts';
import type { Score } from '../score/score.ts';
import { chord, hit, line, meter, note, rest, ticksPerQuarter, voices } from '../../tests/support/score-builders.ts';
import { allOn, splitOf } from '../../tests/support/split-builders.ts';
import type { Performance } from './performance.ts';
import { performLines } from './perform-lines.ts';
import { unfoldedRanges } from './unfolded.ts';

const at60 = (score: Score): Score => ({ ...score, tempos: [{ onsetTicks: 0, quartersPerMinute: 60 }] });
const ringOf = (performance: Performance, id: string): number =>
  Math.round(performance.events.find((event) => event.note === noteId(id))!.ringSeconds * 1000) / 1000;
const strengthsOf = (performance: Performance): number[] => performance.events.map((event) => event.strength);

describe('[R31] which events a performance has', () => {
  const score = at60(voices(meter(4, 4), [note('E4', 2), note('D4', 2)], [note('E2', 1), hit(1), note('A2', 2)]));

  it('one for each line of a note, one without a line for a note on none, in order', () => {
    const split = splitOf({ melody: ['n1', 'n4'], bass: ['n2', 'n1'] });
    const { events, lines } = performLines(score, split);
    expect(lines).toEqual([lineId('melody'), lineId('bass')]);
    expect(events.map((event) => [event.note, event.line, event.onsetSeconds])).toEqual([
      ['n1', 'melody', 0],
      ['n2', 'bass', 0],
      ['n1', 'bass', 0],
      ['n3', null, 1],
      ['n4', 'melody', 2],
      ['n5', null, 2],
    ]);
  });

  it('only those of the lines chosen, and loose notes; a retired line’s notes are loose', () => {
    const split = splitOf({ melody: ['n1', 'n4'], bass: ['n2', 'n5'] });
    const only = performLines(score, split, { lines: [lineId('bass')] });
    expect(only.events.map((event) => [event.note, event.line])).toEqual([
      ['n2', 'bass'],
      ['n3', null],
      ['n5', 'bass'],
    ]);
    const retired = {
      ...split,
      lines: split.lines.map((each) => ({ ...each, isRetired: each.id === lineId('bass') })),
    };
    expect(
      performLines(score, retired)
        .events.filter((event) => event.line === null)
        .map((event) => event.note),
    ).toEqual(['n2', 'n3', 'n5']);
  });

  it('only notes that begin within the range, counted from its start', () => {
    const range = { startTicks: ticksPerQuarter, endTicks: 3 * ticksPerQuarter };
    const { events, lengthSeconds } = performLines(score, allOn(score), { range });
    expect(events.map((event) => [event.note, event.onsetSeconds])).toEqual([
      ['n3', 0],
      ['n5', 1],
      ['n4', 1],
    ]);
    expect(lengthSeconds).toBe(2);
  });

  it('a bass line on a bass string, hits as hits, all else on steel unless chosen', () => {
    const split = splitOf({ melody: ['n1', 'n4'], bass: ['n2', 'n5'], taps: ['n3'] });
    const instruments = new Map([[lineId('melody'), 'hum' as const]]);
    const voicesHeard = performLines(score, split, { instruments }).events.map(({ voice }) =>
      voice.kind === 'hit' ? voice.hit : voice.instrument,
    );
    expect(voicesHeard).toEqual(['hum', 'bass', 'lowBody', 'hum', 'bass']);
  });

  it('repeats unfolded, where asked for', () => {
    const repeated = at60(
      line(
        [{ meter: meter(2, 4), startsRepeat: true, repeatTimes: 2 }, { meter: meter(2, 4) }],
        note('E4', 2),
        note('D4', 2),
      ),
    );
    const { events, lengthSeconds } = performLines(repeated, allOn(repeated), { ranges: unfoldedRanges(repeated) });
    expect(events.map((event) => [event.note, event.onsetSeconds])).toEqual([
      ['n1', 0],
      ['n1', 2],
      ['n2', 4],
    ]);
    expect(lengthSeconds).toBe(6);
  });

  it('says what it assumed', () => {
    const silent = { ...score, tempos: [] };
    const codes = performLines(silent, allOn(score), { lines: [lineId('nobody')] }).notes.map(
      (finding) => finding.code,
    );
    expect(codes).toEqual(['tempo-assumed', 'lines-unknown']);
    expect(performLines(score, allOn(score)).notes).toEqual([]);
  });
});

describe('[R33] how long notes ring', () => {
  it('on a known string until it is struck again, by whatever line and heard or not', () => {
    const score = at60(
      voices(
        meter(4, 4),
        [
          note('E4', 1, { string: 1, fret: 0 }),
          note('B3', 1, { string: 2, fret: 0 }),
          note('F4', 2, { string: 1, fret: 1 }),
        ],
        [note('E2', 4, { string: 6, fret: 0 })],
      ),
    );
    const split = splitOf({ melody: ['n1'], middle: ['n3'], bass: ['n2', 'n4'] });
    const all = performLines(score, split);
    expect(ringOf(all, 'n1')).toBe(2);
    expect(ringOf(performLines(score, split, { lines: [lineId('melody')] }), 'n1')).toBe(2);
    expect(ringOf(all, 'n2')).toBe(8);
  });

  it('until a rest of its own voice, unless it is let ring', () => {
    const quiet = at60(line(meter(4, 4), note('E4', 1, { string: 1 }), rest(3)));
    expect(ringOf(performLines(quiet, allOn(quiet)), 'n1')).toBe(1);
    const ringing = at60(line(meter(4, 4), note('E4', 1, { string: 1, techniques: ['letRing'] }), rest(3)));
    expect(ringOf(performLines(ringing, allOn(ringing)), 'n1')).toBe(8);
  });

  it('until the hand must leave the fret', () => {
    const score = at60(
      line(
        meter(4, 4),
        note('G4', 1, { string: 1, fret: 3 }),
        note('D4', 1, { string: 2, fret: 3 }),
        note('A4', 2, { string: 2, fret: 10 }),
      ),
    );
    const performance = performLines(score, allOn(score));
    expect(ringOf(performance, 'n1')).toBe(2);
    expect(ringOf(performance, 'n2')).toBe(1);
  });

  it('for its written length where no string is known, half of it when staccato', () => {
    const score = at60(line(meter(4, 4), note('G4', 1), note('D4', 1, { techniques: ['staccato'] }), note('A4', 2)));
    const performance = performLines(score, allOn(score));
    expect(['n1', 'n2', 'n3'].map((id) => ringOf(performance, id))).toEqual([1, 0.5, 2]);
  });
});

describe('[R34] how hard notes are played', () => {
  const score = at60(line(meter(4, 4), ...Array.from({ length: 8 }, () => note('E4', 1))));
  const withDynamics = (dynamics: Score['dynamics']): number[] =>
    strengthsOf(performLines({ ...score, dynamics }, allOn(score)));
  const quarter = ticksPerQuarter;

  it('by the marked level from its place on, mf before any', () => {
    const heard = withDynamics([{ kind: 'level', onsetTicks: 4 * quarter, level: 'pp' }]);
    expect(heard[4]!).toBeLessThan(heard[0]! - 0.2);
    expect(heard[1]).toBe(heard[2]);
  });

  it('more along a louder hairpin, up to the level at its end', () => {
    const hairpin = { kind: 'hairpin', onsetTicks: 0, endTicks: 4 * quarter, direction: 'louder' } as const;
    const heard = withDynamics([
      { kind: 'level', onsetTicks: 0, level: 'p' },
      hairpin,
      { kind: 'level', onsetTicks: 4 * quarter, level: 'f' },
    ]);
    expect(heard[1]!).toBeLessThan(heard[2]!);
    expect(heard[2]!).toBeLessThan(heard[3]!);
    expect(heard[3]!).toBeLessThan(heard[4]!);
    const alone = withDynamics([hairpin]);
    expect(alone[5]!).toBeGreaterThan(withDynamics([])[5]!);
  });

  it('more on accents and on the first beat of a bar', () => {
    const accented = at60(
      line(meter(4, 4), note('E4', 1), note('E4', 1, { techniques: ['accent'] }), note('E4', 0.5), note('E4', 1.5)),
    );
    const [first, accent, beat, between] = strengthsOf(performLines(accented, allOn(accented)));
    expect(accent!).toBeGreaterThan(first!);
    expect(first!).toBeGreaterThan(beat!);
    expect(beat!).toBeGreaterThan(between!);
  });
});

describe('[R54] the tuning', () => {
  it('is that of the first guitar that is heard, a capo reckoned in; unknown where none says it', () => {
    const score = line(meter(4, 4), note('D2', 1, { string: 6, fret: 0 }), note('E2', 3, { string: 6, fret: 2 }));
    const [part] = score.parts;
    const dropped = { ...part!, tuning: [64, 59, 55, 50, 45, 38], capoFret: 2 };
    const bass = { ...part!, tuning: [43, 38, 33, 28] };
    const parts = [bass, dropped];
    expect(performLines({ ...score, parts }, allOn(score)).tuning).toEqual([66, 61, 57, 52, 47, 40]);
    expect(performLines({ ...score, parts: [bass] }, allOn(score)).tuning).toBeNull();
    expect(performLines(score, allOn(score)).events.map(({ fret }) => fret)).toEqual([0, 2]);
  });
});

describe('strums and grace notes', () => {
  it('spread a chord from its lowest note when struck downwards, from its highest upwards', () => {
    const strummed = (techniques: 'strumDown' | 'strumUp' | 'arpeggio'): string[] => {
      const score = at60(line(meter(4, 4), chord(['E3', 'B3', 'G4'], 4, { techniques: [techniques] })));
      const { events } = performLines(score, allOn(score));
      expect(new Set(events.map((event) => event.onsetSeconds)).size).toBe(3);
      return events.map((event) => event.note);
    };
    expect(strummed('strumDown')).toEqual(['n1', 'n2', 'n3']);
    expect(strummed('arpeggio')).toEqual(['n1', 'n2', 'n3']);
    expect(strummed('strumUp')).toEqual(['n3', 'n2', 'n1']);
  });

  it('play a grace note just before its main note, on its line', () => {
    const score = at60(line(meter(4, 4), note('E4', 2), note('D4', 2)));
    const grace = {
      id: noteId('g1'),
      main: noteId('n2'),
      sound: score.notes[0]!.sound,
      heads: [],
      fingerboard: null,
      hasSlash: true,
    };
    const { events } = performLines({ ...score, graces: [grace] }, allOn(score));
    expect(events.map((event) => event.note)).toEqual(['n1', 'g1', 'n2']);
    expect(events[1]!.onsetSeconds).toBeGreaterThan(1.9);
    expect(events[1]!.onsetSeconds).toBeLessThan(2);
    expect(events[1]!.line).toBe(lineId('melody'));
  });

  it('play the notes of a grace chord together', () => {
    const score = at60(line(meter(4, 4), note('E4', 2), note('D4', 2)));
    const grace = { main: noteId('n2'), sound: score.notes[0]!.sound, heads: [], fingerboard: null, hasSlash: true };
    const graces = [
      { ...grace, id: noteId('g1') },
      { ...grace, id: noteId('g2'), isChordMember: true as const },
      { ...grace, id: noteId('g3') },
    ];
    const { events } = performLines({ ...score, graces }, allOn(score));
    const onsets = new Map(events.map((event) => [event.note as string, event.onsetSeconds]));
    expect(onsets.get('g1')).toBe(onsets.get('g2'));
    expect(onsets.get('g3')! - onsets.get('g2')!).toBeCloseTo(onsets.get('n2')! - onsets.get('g3')!, 6);
  });
});

describe('[R52] grace notes (common practice, no source)', () => {
  const score = at60(line(meter(4, 4), note('E4', 2), note('D4', 2)));
  const graceOf = (id: string, main: string, hasSlash: boolean) => ({
    id: noteId(id),
    main: noteId(main),
    sound: score.notes[0]!.sound,
    heads: [],
    fingerboard: null,
    hasSlash,
  });
  const onsetsOf = (graces: Score['graces'], music = score): [string, number][] =>
    performLines({ ...music, graces }, allOn(music)).events.map((event) => [
      event.note,
      Math.round(event.onsetSeconds * 1000) / 1000,
    ]);

  it('make their main note wait where the performance does not reach back so far', () => {
    expect(onsetsOf([graceOf('g1', 'n1', true)])).toEqual([
      ['g1', 0],
      ['n1', 0.075],
      ['n2', 2],
    ]);
  });

  it('lean on the beat where one stands alone without a slash, half of a short main note', () => {
    expect(onsetsOf([graceOf('g1', 'n2', false)])).toEqual([
      ['n1', 0],
      ['g1', 2],
      ['n2', 2.25],
    ]);
    const short = at60(line(meter(4, 4), note('E4', 2), note('D4', 0.25), note('C4', 1.75)));
    expect(onsetsOf([graceOf('g1', 'n2', false)], short)[2]).toEqual(['n2', 2.125]);
  });

  it('are quick where several follow each other, and where a string is hammered from them', () => {
    const two = onsetsOf([graceOf('g1', 'n2', false), graceOf('g2', 'n2', false)]);
    expect(two.slice(1)).toEqual([
      ['g1', 1.85],
      ['g2', 1.925],
      ['n2', 2],
    ]);
    const hammered = at60(line(meter(4, 4), note('E4', 2), note('D4', 2, { techniques: ['hammerOn'] })));
    expect(onsetsOf([graceOf('g1', 'n2', false)], hammered)[1]).toEqual(['g1', 1.925]);
  });
});
