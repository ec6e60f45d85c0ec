import { describe, expect, it } from 'vitest';
import { fourVoices, oneGuitar, stringQuartet, type Ensemble } from '../../lines/ensembles.ts';
import { writeOut } from '../../lines/write-out.ts';
import { excerptOfBars } from '../../score/excerpt.ts';
import { musicXmlFaults } from '../../../tests/support/musicxml-check.ts';
import { meter, note, voices } from '../../../tests/support/score-builders.ts';
import { splitOf } from '../../../tests/support/split-builders.ts';
import { writeWrittenScore } from './write-written-score.ts';

const two = voices(meter(4, 4), [note('C5', 4)], [note('E4', 4)]);

function writtenFor(ensemble: Ensemble | undefined, ...lines: readonly ['n1', 'n2'] | readonly ['n1']): string {
  const whole = excerptOfBars(two, two.bars[0]!.id, two.bars.at(-1)!.id)!;
  const split = splitOf(lines.length === 2 ? { melody: ['n1'], bass: ['n2'] } : { melody: ['n1'] });
  const { value } = writeOut(two, split, whole, {
    lengths: 'written',
    ...(ensemble === undefined ? {} : { ensemble }),
  });
  const xml = writeWrittenScore(value);
  expect(musicXmlFaults(xml)).toEqual([]);
  return xml;
}

const list = (xml: string): string[] => [...xml.matchAll(/<(part-group|score-part) [^>]*>/g)].map(([tag]) => tag);
const barlines = (xml: string): string | undefined => /<group-barline>(.*?)</.exec(xml)?.[1];

// Instruments share their bar lines, singers do not, for the words between their staves: common practice, no source.
describe('[R43] the staves of an ensemble', () => {
  it('stand under one bracket', () => {
    const xml = writtenFor(stringQuartet, 'n1', 'n2');
    expect(list(xml)).toEqual([
      '<part-group type="start" number="1">',
      '<score-part id="P1">',
      '<score-part id="P2">',
      '<part-group type="stop" number="1"/>',
    ]);
    expect(xml).toContain('<group-symbol>bracket</group-symbol>');
  });

  it.each([
    [stringQuartet, 'yes'],
    [oneGuitar, 'yes'],
    [fourVoices, 'no'],
  ])('share their bar lines, or do not: $name', (ensemble, said) => {
    expect(barlines(writtenFor(ensemble, 'n1', 'n2'))).toBe(said);
  });

  it('need no bracket where there is one, or no ensemble', () => {
    expect(barlines(writtenFor(stringQuartet, 'n1'))).toBeUndefined();
    expect(barlines(writtenFor(undefined, 'n1', 'n2'))).toBeUndefined();
  });
});
