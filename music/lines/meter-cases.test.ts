import { describe, expect, it } from 'vitest';
import { excerptOfBars } from '../score/excerpt.ts';
import type { Meter } from '../score/score.ts';
import { line, meter, note, rest, type Item } from '../../tests/support/score-builders.ts';
import { allOn } from '../../tests/support/split-builders.ts';
import { writtenText } from '../../tests/support/written-text.ts';
import { writeOut } from './write-out.ts';

/** A row of lengths in quarter notes, rests with a minus, and how it is written. */
type Case = readonly [lengths: string, written: string];

const names = ['C4', 'D4', 'E4', 'F4', 'G4', 'A4'];

function itemsOf(lengths: string): readonly Item[] {
  let index = 0;
  return lengths.split(' ').map((text) => {
    const [over, under] = text.split('/').map(Number);
    const quarters = over! / (under ?? 1);
    return quarters < 0 ? rest(-quarters) : note(names[index++ % names.length]!, quarters);
  });
}

function writtenAs(barMeter: Meter, lengths: string): string {
  const score = line(barMeter, ...itemsOf(lengths));
  const whole = excerptOfBars(score, score.bars[0]!.id, score.bars.at(-1)!.id)!;
  return writtenText(writeOut(score, allOn(score), whole, { lengths: 'written' }).value);
}

// How values and rests stand in these meters: E. Gould, Behind Bars (Faber, 2011), “Meter”: grouping of notes, rests, duple and compound time, irregular time; from memory, since no copy was at hand.
const tables: readonly (readonly [string, Meter, readonly Case[]])[] = [
  [
    '2/4',
    meter(2, 4),
    [
      ['1/2 -3/2', 'C4:8 r:8 r:4'],
      ['-3/2 1/2', 'r:4 r:8 C4:8'],
      ['1/2 1 1/2', 'C4:8 D4:4 E4:8'],
      ['3/2 1/2', 'C4:4. D4:8'],
      ['1/2 3/2', 'C4:8 D4~:8 ~D4:4'],
      ['3/4 1/4 1/4 3/4', 'C4:8. D4:16 E4:16 F4:8.'],
      ['1/4 1/2 1/4 1', 'C4:16 D4:8 E4:16 F4:4'],
      ['-1/4 3/4 -1', 'r:16 C4:8. r:4'],
      ['1/4 -1/2 1/4 1', 'C4:16 r:16 r:16 D4:16 E4:4'],
    ],
  ],
  [
    '3/4',
    meter(3, 4),
    [
      ['1 -2', 'C4:4 r:4 r:4'],
      ['-2 1', 'r:4 r:4 C4:4'],
      ['-1/2 1/2 -2', 'r:8 C4:8 r:4 r:4'],
      ['2 1', 'C4:2 D4:4'],
      ['1 2', 'C4:4 D4:2'],
      ['3/2 3/2', 'C4:4. D4~:8 ~D4:4'],
      ['1/2 1 1/2 1', 'C4:8 D4~:8 ~D4:8 E4:8 F4:4'],
      ['3/2 1/2 1', 'C4:4. D4:8 E4:4'],
      ['1 3/2 1/2', 'C4:4 D4:4. E4:8'],
    ],
  ],
  [
    '4/4',
    meter(4, 4),
    [
      ['-3 1', 'r:2 r:4 C4:4'],
      ['1/2 -7/2', 'C4:8 r:8 r:4 r:2'],
      ['-1 1 -2', 'r:4 C4:4 r:2'],
      ['1 -2 1', 'C4:4 r:4 r:4 D4:4'],
      ['1 2 1', 'C4:4 D4:2 E4:4'],
      ['1 3', 'C4:4 D4~:4 ~D4:2'],
      ['3 1', 'C4:2. D4:4'],
      ['3/2 1 3/2', 'C4:4. D4~:8 ~D4:8 E4~:8 ~E4:4'],
      ['1/2 1 1 1 1/2', 'C4:8 D4:4 E4~:8 ~E4:8 F4:4 G4:8'],
      ['3/2 5/2', 'C4:4. D4~:8 ~D4:2'],
    ],
  ],
  [
    '6/8',
    meter(6, 8),
    [
      ['1/2 -1 3/2', 'C4:8 r:8 r:8 D4:4.'],
      ['-5/2 1/2', 'r:4. r:4 C4:8'],
      ['-1/2 1 3/2', 'r:8 C4:4 D4:4.'],
      ['1 1/2 -3/2', 'C4:4 D4:8 r:4.'],
      ['1 1 1', 'C4:4 D4~:8 ~D4:8 E4:4'],
      ['3', 'C4:2.'],
      ['1/2 5/2', 'C4:8 D4~:4 ~D4:4.'],
      ['3/4 1/4 1/2 3/2', 'C4:8. D4:16 E4:8 F4:4.'],
    ],
  ],
  [
    '9/8',
    meter(9, 8),
    [
      ['3/2 -3', 'C4:4. r:4. r:4.'],
      ['-3/2 3', 'r:4. C4:2.'],
      ['3 3/2', 'C4:2. D4:4.'],
      ['9/2', 'C4~:2. ~C4:4.'],
      ['1 -7/2', 'C4:4 r:8 r:4. r:4.'],
      ['-4 1/2', 'r:4. r:4. r:4 C4:8'],
    ],
  ],
  [
    '12/8',
    meter(12, 8),
    [
      ['-3 3', 'r:2. C4:2.'],
      ['3/2 -9/2', 'C4:4. r:4. r:2.'],
      ['6', 'C4:1.'],
      ['3/2 3 3/2', 'C4:4. D4:2. E4:4.'],
      ['9/2 3/2', 'C4~:2. ~C4:4. D4:4.'],
      ['-3/2 3/2 -3', 'r:4. C4:4. r:2.'],
    ],
  ],
  [
    '5/8 as 3+2',
    meter([3, 2], 8),
    [
      ['3/2 1', 'C4:4. D4:4'],
      ['1/2 -2', 'C4:8 r:8 r:8 r:4'],
      ['5/2', 'C4~:4. ~C4:4'],
      ['1 1 1/2', 'C4:4 D4~:8 ~D4:8 E4:8'],
      ['-3/2 1', 'r:4. C4:4'],
    ],
  ],
  [
    '5/8 as 2+3',
    meter([2, 3], 8),
    [
      ['1 3/2', 'C4:4 D4:4.'],
      ['-1 3/2', 'r:4 C4:4.'],
      ['5/2', 'C4~:4 ~C4:4.'],
      ['3/2 1', 'C4~:4 ~C4:8 D4:4'],
      ['1 -3/2', 'C4:4 r:4.'],
    ],
  ],
  [
    '7/8 as 2+2+3',
    meter([2, 2, 3], 8),
    [
      ['1 -5/2', 'C4:4 r:4 r:4.'],
      ['-2 3/2', 'r:4 r:4 C4:4.'],
      ['3/2 1/2 3/2', 'C4~:4 ~C4:8 D4:8 E4:4.'],
      ['7/2', 'C4~:4 ~C4~:4 ~C4:4.'],
    ],
  ],
  [
    '7/8 as 3+2+2',
    meter([3, 2, 2], 8),
    [
      ['3/2 1 1', 'C4:4. D4:4 E4:4'],
      ['-3/2 2', 'r:4. C4~:4 ~C4:4'],
    ],
  ],
  [
    '5/4',
    meter(5, 4),
    [
      ['3 2', 'C4:2. D4:2'],
      ['5', 'C4~:2. ~C4:2'],
      ['1 -4', 'C4:4 r:4 r:4 r:2'],
      ['-3 2', 'r:4 r:4 r:4 C4:2'],
    ],
  ],
  [
    '5/4 as 2+3',
    meter([2, 3], 4),
    [
      ['2 3', 'C4:2 D4:2.'],
      ['-2 3', 'r:2 C4:2.'],
      ['4 1', 'C4~:2 ~C4:2 D4:4'],
    ],
  ],
];

describe.each(tables)('[R16] [R17] values and rests in %s', (_name, barMeter, cases) => {
  it.each(cases)('%s', (lengths, written) => {
    expect(writtenAs(barMeter, lengths)).toBe(written);
  });
});
