import { describe, expect, it } from 'vitest';
import { meter, note, voices } from '../../tests/support/score-builders.ts';
import { splitOf } from '../../tests/support/split-builders.ts';
import { lineId } from '../basis/ids.ts';
import { performLines } from '../perform/perform-lines.ts';
import { Playing } from './playing.ts';
import { Transport } from './transport.ts';

const sampleRate = 48_000;
const score = {
  ...voices(meter(4, 4), [note('E4', 1), note('D4', 1), note('C4', 2), note('G4', 4)]),
  tempos: [{ onsetTicks: 0, quartersPerMinute: 60 }],
};
const split = splitOf({ melody: score.notes.map(({ id }) => id) });
const barTicks = score.ticksPerQuarter * 4;
const printed = performLines(score, split);
const twice = performLines(score, split, {
  ranges: [
    { startTicks: 0, endTicks: barTicks },
    { startTicks: 0, endTicks: 2 * barTicks },
  ],
});

function open() {
  const heard: number[] = [];
  const stages: string[] = [];
  const transport = new Transport(sampleRate, {
    startEvent: (index) => heard.push(index),
    click: () => undefined,
    stageBegan: (stage) => stages.push(stage.kind),
    ended: () => undefined,
  });
  const playing = new Playing(transport);
  const goOn = (seconds: number): void => transport.advance(Math.round(seconds * sampleRate));
  return { transport, playing, goOn, heard, stages };
}

describe('what is played', () => {
  it('[R58] goes on at the same written place while repeats come and go', () => {
    const { transport, playing, goOn, heard } = open();
    playing.load(printed, null);
    playing.begin({ seconds: 0, pass: 0, countInBars: 0 });
    goOn(5);
    playing.load(twice, null);
    expect(transport.positionSeconds).toBeCloseTo(9, 6);
    goOn(1);
    playing.load(printed, null);
    expect(transport.positionSeconds).toBeCloseTo(6, 6);
    expect(heard).toEqual([0, 1, 2, 3]);
  });

  it('keeps the count-in when the music or the stretch changes, and leads to where it now begins', () => {
    const { transport, playing, goOn, heard, stages } = open();
    playing.load(printed, null);
    playing.begin({ seconds: 4, pass: 0, countInBars: 1 });
    goOn(2);
    playing.load(twice, null);
    expect(transport.positionSeconds).toBeCloseTo(6, 6);
    playing.setLoop({ startSeconds: 4, endSeconds: 6 });
    expect(transport.positionSeconds).toBeCloseTo(2, 6);
    expect([...stages, ...heard]).toEqual(['countIn']);
    goOn(2.1);
    expect(transport.positionSeconds).toBeCloseTo(4.1, 6);
    expect(stages).toEqual(['countIn', 'play']);
  });

  it('begins in the pass of a programme that it is told', () => {
    const { transport, playing, stages } = open();
    const all = { kind: 'play', lines: [{ line: lineId('melody'), levelDb: 0 }] } as const;
    playing.load(printed, null);
    playing.setProgramme({ passes: [all, { kind: 'silence', withClick: false }, all], afterLast: 'stop' });
    playing.begin({ seconds: 3, pass: 1, countInBars: 0 });
    expect(stages).toEqual(['silence']);
    expect(transport.positionSeconds).toBe(3);
  });

  it('ends where the music no longer has the place', () => {
    const { transport, playing, goOn } = open();
    playing.load(printed, null);
    playing.begin({ seconds: 0, pass: 0, countInBars: 0 });
    goOn(1);
    playing.setLoop({ startSeconds: 2, endSeconds: 2 });
    expect(transport.isRunning).toBe(false);
  });
});
