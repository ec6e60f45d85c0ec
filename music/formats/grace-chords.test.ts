import { describe, expect, it } from 'vitest';
import { allOn } from '../../tests/support/split-builders.ts';
import { writeOut } from '../lines/write-out.ts';
import { excerptOfBars } from '../score/excerpt.ts';
import type { Score } from '../score/score.ts';
import type { WrittenScore } from '../score/written.ts';
import { writeAbc } from './abc/write-abc.ts';
import { writeWrittenScore } from './musicxml-writer/write-written-score.ts';
import { readScoreFile } from './read-score-file.ts';

function read(text: string, fileName: string): Score {
  const result = readScoreFile(new TextEncoder().encode(text), { fileName, firstNoteNumber: 1, firstBarNumber: 1 });
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join(' '));
  return result.value.score;
}

function written(score: Score): WrittenScore {
  const [bar] = score.bars;
  const excerpt = bar === undefined ? null : excerptOfBars(score, bar.id, bar.id);
  if (excerpt === null) throw new Error('no bars');
  return writeOut(score, allOn(score), excerpt, { lengths: 'written' }).value;
}

/** `C+ E G` is a chord of two grace notes, then one more. */
const graces = ({ graces: all }: Score): string =>
  all
    .map(
      ({ sound, isChordMember }) =>
        `${isChordMember === true ? '+' : ''}${sound.kind === 'pitched' ? sound.written.step : 'x'}`,
    )
    .join(' ');

// MusicXML 4.0, grace and chord: a grace note with chord is struck with the one before it, from memory.
describe('grace notes that are struck together', () => {
  const score = read('X:1\nM:4/4\nL:1/4\nK:C\n{[CE]G}A4|\n', 'a.abc');

  it('are told from grace notes in a row', () => {
    expect(graces(score)).toBe('C +E G');
    expect(graces(read('X:1\nM:4/4\nL:1/4\nK:C\n{CEG}A4|\n', 'a.abc'))).toBe('C E G');
  });

  it('are written and read back as they are, as MusicXML and as ABC', () => {
    expect(graces(read(writeWrittenScore(written(score)), 'a.musicxml'))).toBe('C +E G');
    const abc = writeAbc(written(score)).text;
    expect(abc).toContain('{[CE]G}');
    expect(graces(read(abc, 'a.abc'))).toBe('C +E G');
  });

  it('have one beam for each that follows another', () => {
    const xml = writeWrittenScore(written(score));
    expect(xml.match(/<beam number="1">(begin|end)<\/beam>/g)).toEqual([
      '<beam number="1">begin</beam>',
      '<beam number="1">end</beam>',
    ]);
  });
});
