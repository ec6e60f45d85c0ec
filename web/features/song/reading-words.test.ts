import { describe, expect, it } from 'vitest';
import { scoreFacts, type ScoreReading } from '../../../contract/index.ts';
import { factsOf, readScoreFile } from '../../../music/index.ts';
import { tinyScore } from '../../../tests/support/tiny-score.ts';
import { octaveWords, openChoices, readingSentences, tuneWords } from './reading-words.ts';

const read = readScoreFile(tinyScore(['E2 - - -']), { fileName: 'x', firstNoteNumber: 1, firstBarNumber: 1 });
if (!read.ok) throw new Error('the test’s own score cannot be read');
const facts = scoreFacts.parse(factsOf(read.value.score));
const reading: ScoreReading = {
  format: 'musicxml',
  chosen: { tune: null, grid: null, octave: null, capo: null },
  tunes: [],
  grid: [],
  sounding: [],
};

describe('the words of a reading', () => {
  it.each([
    [0, 'just as its notes say'],
    [-1, 'an octave lower than its notes'],
    [2, '2 octaves higher than its notes'],
  ])('say an octave: %i', (octave, words) => expect(octaveWords(octave)).toBe(words));

  it('tell octave and capo with what was believed', () => {
    const sounding: ScoreReading['sounding'] = [
      { part: 'P1', octave: -1, octaveBy: 'clef', capo: { are: 'shapes', by: 'assumption' } },
    ];
    expect(readingSentences({ ...reading, sounding }, facts)).toEqual([
      'The file was read as MusicXML.',
      'Guitar sounds an octave lower than its notes: as its clef says.',
      'Its notes are the shapes that the hand plays: assumed, since the file does not say.',
    ]);
    expect(openChoices({ ...reading, sounding })).toEqual({ tune: false, grid: false, octave: true, capo: true });
  });

  it('tell how time was counted, stretch by stretch', () => {
    const straight = { firstBar: 1, lastBar: 8, kind: 'straight' } as const;
    const midi = { ...reading, format: 'midi', grid: [straight, { firstBar: 9, lastBar: 12, kind: 'swing' }] } as const;
    expect(readingSentences({ ...midi, grid: [...midi.grid] }, facts)[1]).toBe(
      'Time was counted straight in bars 1 to 8, with swing in bars 9 to 12.',
    );
    expect(readingSentences({ ...midi, grid: [straight] }, facts)[1]).toBe('Time was counted straight throughout.');
  });

  it('name a tune by number and title', () => {
    expect([tuneWords({ number: 7, title: 'The Gate' }), tuneWords({ number: 2, title: '' })]).toEqual([
      'no. 7, The Gate',
      'no. 2, without a title',
    ]);
  });
});
