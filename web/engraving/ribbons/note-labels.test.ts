import { describe, expect, it } from 'vitest';
import { hit, line, meter, note, voices } from '../../../tests/support/score-builders.ts';
import { noteId, type Lyric } from '../../../music/index.ts';
import type { LabelKind } from '../../lib/own-singing.ts';
import { labelsOf as labelsWanted, spokenLabel } from './note-labels.ts';

const labelsOf = (score: Parameters<typeof labelsWanted>[0], labels: LabelKind, verse: string | null = null) =>
  labelsWanted(score, { labels, verse });

const bar = { meter: meter(4, 4), key: { fifths: 0, mode: 'minor' as const } };
const score = voices([bar], [note('A4', 1), note('C5', 1), note('G#4', 1), note('A4', 1)], [hit(4)]);
const lyric = (id: string, text: string, syllabic: Lyric['syllabic'] = 'single', verse = '1'): Lyric => ({
  note: noteId(id),
  verse,
  text,
  syllabic,
  isExtended: false,
});
const sung = {
  ...score,
  lyrics: [
    lyric('n1', 'mor', 'begin'),
    lyric('n3', 'ning', 'end'),
    lyric('n3', 'dew', 'single', '2'),
    lyric('n5', 'too', 'single', '2'),
  ],
};

describe('labels of notes', () => {
  it('are names, degrees by the tonic of the minor key, or solfa with la for it', () => {
    expect([...labelsOf(score, 'names').texts.values()]).toEqual(['A', 'C', 'G♯', 'A']);
    expect([...labelsOf(score, 'degrees').texts.values()]).toEqual(['1', '3', '♯7', '1']);
    expect([...labelsOf(score, 'solfa').texts.values()]).toEqual(['la', 'do', 'si', 'la']);
    expect(labelsOf(score, 'none').texts.size).toBe(0);
  });

  it('are the words of one verse, the first where none is named', () => {
    const first = { n1: 'mor-', n3: 'ning' };
    expect(Object.fromEntries(labelsOf(sung, 'words').texts)).toEqual(first);
    expect(Object.fromEntries(labelsOf(sung, 'words', '2').texts)).toEqual({ n3: 'dew', n5: 'too' });
    expect(Object.fromEntries(labelsOf(sung, 'words', '7').texts)).toEqual(first);
  });

  it('are names where there are no words', () => {
    expect(labelsOf(line(meter(4, 4), note('C4', 4)), 'words')).toMatchObject({ kind: 'names' });
  });

  it('are said where they tell more than the name', () => {
    expect(spokenLabel('names', 'A')).toBeNull();
    expect(spokenLabel('degrees', '♯7')).toBe('degree ♯7');
    expect(spokenLabel('words', 'mor-')).toBe('“mor-”');
  });
});
