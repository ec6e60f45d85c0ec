import { describe, expect, it } from 'vitest';
import { barId, lineId, noteId, partId } from '../basis/ids.ts';
import { fraction } from '../basis/fraction.ts';
import { excerptOfBars } from '../score/excerpt.ts';
import type { Bar, Score } from '../score/score.ts';
import type { WrittenScore } from '../score/written.ts';
import { line, meter, note, rest, ticksPerQuarter, voices } from '../../tests/support/score-builders.ts';
import { allOn, splitOf } from '../../tests/support/split-builders.ts';
import { writeOut } from './write-out.ts';

const quarter = ticksPerQuarter;
const written = (score: Score, first = 0, last = score.bars.length - 1, split = allOn(score)): WrittenScore =>
  writeOut(score, split, excerptOfBars(score, score.bars[first]!.id, score.bars[last]!.id)!, { lengths: 'written' })
    .value;

const directionsOf = (score: WrittenScore, staff = 0): unknown =>
  score.staves[staff]!.directions.map((list) =>
    list.map(({ onsetTicks, ...said }) => [onsetTicks / quarter, ...(Object.values(said) as string[])].join(' ')),
  );

const whole = (name: string): ReturnType<typeof note> => note(name, 4);

describe('[R42] dynamics', () => {
  const loud: Score = {
    ...voices(meter(4, 4), [whole('C5'), whole('D5')], [rest(4), rest(2), note('C3', 2)]),
    dynamics: [
      { kind: 'level', onsetTicks: 0, level: 'p' },
      { kind: 'level', onsetTicks: 4 * quarter, level: 'f' },
      { kind: 'hairpin', onsetTicks: quarter, endTicks: 4 * quarter, direction: 'louder' },
    ],
  };
  const split = splitOf({ melody: ['n1', 'n2'], bass: ['n3'] });

  it('stand at every line, and wait for its next note where it rests', () => {
    const score = written(loud, 0, 1, split);
    expect(directionsOf(score)).toEqual([
      ['0 level p', '1 hairpinStart louder 1'],
      ['0 hairpinStop 1', '0 level f'],
    ]);
    expect(directionsOf(score, 1)).toEqual([[], ['2 level f']]);
  });

  it('stand at the lines whose notes are of their part', () => {
    const [first, second] = loud.dynamics;
    const part = loud.notes[0]!.voices[0]!.part;
    const marks = [
      { ...first!, parts: [part] },
      { ...second!, parts: [partId('other')] },
    ];
    const score = written({ ...loud, dynamics: marks }, 0, 1, split);
    expect(directionsOf(score)).toEqual([['0 level p'], []]);
    expect(directionsOf(score, 1)).toEqual([[], ['2 level p']]);
  });

  it('of one staff go with its notes, and a line that goes to another staff takes the level that holds there', () => {
    const part = loud.notes[0]!.voices[0]!.part;
    const four = line(meter(4, 4), ...['C4', 'D4', 'E4', 'F4', 'G4', 'A4'].map(whole));
    const staves = [1, 2, 2, 1, 2, 1];
    const notes = four.notes.map((each, index) => ({
      ...each,
      voices: each.voices.map((voice) => ({ ...voice, staff: staves[index]! })),
    }));
    const said = { kind: 'level', parts: [part] } as const;
    const dynamics = [
      { ...said, onsetTicks: 0, level: 'p', staves: [1] },
      { ...said, onsetTicks: 0, level: 'f', staves: [2] },
      { ...said, onsetTicks: 8 * quarter, level: 'pp', staves: [1] },
      { ...said, onsetTicks: 12 * quarter, level: 'mf' },
    ] as const;
    const score = { ...four, notes, dynamics };
    expect(directionsOf(written(score))).toEqual([['0 level p'], ['0 level f'], [], ['0 level mf'], [], []]);
    expect(directionsOf(written(score, 2, 3))).toEqual([['0 level f'], ['0 level mf']]);
    const apart = splitOf({ melody: ['n1', 'n4', 'n6'], bass: ['n2', 'n3', 'n5'] });
    const both = written({ ...score, dynamics: dynamics.slice(0, 3) }, 0, 5, apart);
    expect(directionsOf(both)).toEqual([['0 level p'], [], [], ['0 level pp'], [], []]);
    expect(directionsOf(both, 1)).toEqual([[], ['0 level f'], [], [], [], []]);
  });

  it('in force where an excerpt begins stand there again, hairpins cut at its edge', () => {
    const held = { ...loud, dynamics: [loud.dynamics[0]!] };
    expect(directionsOf(written(held, 1, 1, split))).toEqual([['0 level p']]);
    const from = { bar: barId('b1'), offset: fraction(2) };
    const cut = writeOut(
      { ...line(meter(4, 4), note('C4', 2), note('D4', 2)), dynamics: [loud.dynamics[2]!] },
      splitOf({ melody: ['n1', 'n2'] }),
      { from, to: { bar: barId('b1'), offset: fraction(4) } },
      { lengths: 'written' },
    ).value;
    expect(directionsOf(cut)).toEqual([['0 hairpinStart louder 1', '2 hairpinStop 1']]);
  });
});

describe('[R41] signs of the order of playing', () => {
  const bars = (more: (index: number) => Partial<Bar>): Score => {
    const plain = line(meter(4, 4), ...['C4', 'D4', 'E4', 'F4'].map(whole));
    return { ...plain, bars: plain.bars.map((bar, index) => ({ ...bar, ...more(index) })) };
  };
  const repeats = (score: WrittenScore): string =>
    score.bars
      .map(
        ({ signs }) => `${signs.startsRepeat ? '|:' : ''}${signs.endings.join()}${signs.repeatTimes > 0 ? ':|' : ''}`,
      )
      .join(' ');
  const withEndings = bars(
    (index) => [{}, { startsRepeat: true }, { endings: [1], repeatTimes: 2 }, { endings: [2] }][index]!,
  );

  it('are kept where the whole repeat is written', () => {
    expect(repeats(written(withEndings))).toBe(' |: 1:| 2');
    expect(repeats(written(withEndings, 1, 3))).toBe('|: 1:| 2');
  });

  it('go where a part of the repeat is not written', () => {
    expect(repeats(written(withEndings, 2, 3))).toBe(' ');
    expect(repeats(written(withEndings, 1, 2))).toBe(' ');
  });

  it('begin a repeat that began by the one before, which is not written', () => {
    const twice = bars((index) => ({ repeatTimes: index === 1 || index === 3 ? 2 : 0 }));
    expect(repeats(written(twice))).toBe(' :|  :|');
    expect(repeats(written(twice, 1, 3))).toBe(' |: :|');
  });

  it('jumps stand only where every place they lead to is written', () => {
    const jumping = bars((index) => ({ jumps: index === 1 ? ['segno'] : index === 3 ? ['dalSegno'] : [] }));
    const jumps = (score: WrittenScore): unknown => score.bars.map(({ signs }) => signs.jumps.join());
    expect(jumps(written(jumping))).toEqual(['', 'segno', '', 'dalSegno']);
    expect(jumps(written(jumping, 2, 3))).toEqual(['', '']);
  });
});

describe('[R42] what is printed once', () => {
  const score: Score = {
    ...line(meter(4, 4), whole('C4'), whole('D4')),
    tempos: [{ onsetTicks: 0, quartersPerMinute: 96 }],
    words: [
      { onsetTicks: 4 * quarter, part: 'P1' as never, staff: 1, kind: 'section', text: 'Chorus' },
      { onsetTicks: 4 * quarter, part: 'P1' as never, staff: 1, kind: 'capo', text: 'Capo 2' },
    ],
  };

  it('is the tempo in force, and words but for those about the capo', () => {
    expect(written(score, 1, 1).bars[0]!.directions).toEqual([
      { onsetTicks: 0, kind: 'tempo', quartersPerMinute: 96 },
      { onsetTicks: 0, kind: 'words', text: 'Chorus' },
    ]);
  });
});

describe('[R42] what joins notes', () => {
  const four = line(
    meter(4, 4),
    note('C4', 1),
    note('D4', 1, { techniques: ['hammerOn'] }),
    note('E4', 1),
    note('F4', 1),
  );
  const slurred: Score = { ...four, slurs: [{ from: noteId('n1'), to: noteId('n3') }] };
  const joins = (score: WrittenScore, staff = 0): unknown =>
    score.staves[staff]!.bars.flat().map(({ heads }) =>
      heads.flatMap(({ details }) => (details?.joins ?? []).map(({ kind, edge }) => `${kind} ${edge}`)).join(', '),
    );

  it('is a slur, and a hammer-on from the note before', () => {
    expect(joins(written(slurred))).toEqual(['slur start, hammerOn start', 'hammerOn stop', 'slur stop', '']);
  });

  it('is left out, and told, where it ends on another line', () => {
    const split = splitOf({ melody: ['n1', 'n2'], bass: ['n3', 'n4'] });
    const whole_ = excerptOfBars(slurred, slurred.bars[0]!.id, slurred.bars[0]!.id)!;
    const { value, issues } = writeOut(slurred, split, whole_, { lengths: 'written' });
    expect(joins(value)).toEqual(['hammerOn start', 'hammerOn stop', '']);
    expect(issues).toMatchObject([{ code: 'element-left-out', severity: 'note', where: { barOrdinal: 1, beat: 1 } }]);
  });

  it('stands with each of the lines that a note is on', () => {
    const split = splitOf({ melody: ['n1', 'n2', 'n3'], bass: ['n1', 'n3'] });
    expect(joins(written(slurred, 0, 0, split), 1)).toEqual(['slur start', '', 'slur stop', '']);
    expect(split.lines.map(({ id }) => id)).toEqual([lineId('melody'), lineId('bass')]);
  });
});
