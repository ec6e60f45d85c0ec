import { describe, expect, it } from 'vitest';
import { readingChoice, type ScoreReading } from '../../../contract/index.ts';
import {
  isOpen,
  octaveOptions,
  octaveWords,
  readingSentences,
  soundingWords,
  tuneWords,
  unchosenWords,
  withPartChoice,
} from './reading-words.ts';

const reading: ScoreReading = {
  format: 'musicxml',
  chosen: { tune: null, grid: null, sounding: [] },
  tunes: [],
  grid: [],
  sounding: [],
};

const low: ScoreReading['sounding'][number] = {
  part: 'P1',
  octave: -1,
  octaveBy: 'clef',
  capo: { are: 'shapes', by: 'assumption' },
};

describe('the words of a reading', () => {
  it.each([
    [0, 'just as its notes say'],
    [-1, 'an octave lower than its notes'],
    [2, '2 octaves higher than its notes'],
  ])('say an octave: %i', (octave, words) => expect(octaveWords(octave)).toBe(words));

  it('offer every octave that can be chosen, and no other', () => {
    const isTaken = (octave: number): boolean =>
      readingChoice.safeParse({ sounding: [{ part: 'P1', octave }] }).success;
    const taken = Array.from({ length: 21 }, (_, index) => index - 10).filter(isTaken);
    const offered = octaveOptions.flatMap(({ value }) => (value === '' ? [] : [Number(value)]));
    expect(offered.toSorted((a, b) => a - b)).toEqual(taken);
  });

  it('tell octave and capo with what was believed', () => {
    expect(soundingWords(low)).toBe(
      'Sounds an octave lower than its notes: as its clef says. Its notes are the shapes that the hand plays: assumed, since the file does not say.',
    );
    const byFile = { octave: -1, octaveBy: 'clef', capo: { are: 'shapes', by: 'assumption' } } as const;
    const chosen = { ...low, octave: 0, octaveBy: 'person', byFile } as const;
    expect([unchosenWords(low), unchosenWords(chosen)]).toEqual([
      null,
      'By the file alone it sounds an octave lower than its notes: as its clef says.',
    ]);
    expect([isOpen(reading), isOpen({ ...reading, sounding: [low] })]).toEqual([false, true]);
  });

  it('keep what is chosen in the order of the parts, and nothing where nothing is chosen', () => {
    const both = { ...reading, sounding: [low, { ...low, part: 'P2' }] };
    const second = withPartChoice(reading.chosen, { part: 'P2', octave: 0, capo: null }, both);
    const first = withPartChoice(second, { part: 'P1', octave: null, capo: 'sounding' }, both);
    expect(first.sounding).toEqual([
      { part: 'P1', octave: null, capo: 'sounding' },
      { part: 'P2', octave: 0, capo: null },
    ]);
    expect(withPartChoice(first, { part: 'P1', octave: null, capo: null }, both)).toEqual(second);
  });

  it('tell how time was counted, stretch by stretch', () => {
    const straight = { firstBar: 1, lastBar: 8, kind: 'straight' } as const;
    const midi = { ...reading, format: 'midi', grid: [straight, { firstBar: 9, lastBar: 12, kind: 'swing' }] } as const;
    expect(readingSentences({ ...midi, grid: [...midi.grid] })[1]).toBe(
      'Time was counted straight in bars 1 to 8, with swing in bars 9 to 12.',
    );
    expect(readingSentences({ ...midi, grid: [straight] })[1]).toBe('Time was counted straight throughout.');
  });

  it('name a tune by number and title', () => {
    expect([tuneWords({ number: 7, title: 'The Gate' }), tuneWords({ number: 2, title: '' })]).toEqual([
      'no. 7, The Gate',
      'no. 2, without a title',
    ]);
  });
});
