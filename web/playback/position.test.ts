import { describe, expect, it } from 'vitest';
import { performLines, type EngineReport } from '../../music/index.ts';
import { line, meter, note, ticksPerQuarter } from '../../tests/support/score-builders.ts';
import { allOn } from '../../tests/support/split-builders.ts';
import type { TimedReport } from './messages.ts';
import { PlayingPosition } from './position.ts';

const score = {
  ...line(meter(4, 4), note('E4', 4), note('D4', 4)),
  tempos: [{ onsetTicks: 0, quartersPerMinute: 60 }],
};
const performance = performLines(score, allOn(score));

const reported = (report: Partial<EngineReport>, contextSeconds: number, stageContextSeconds = 0): TimedReport => ({
  type: 'report',
  playNumber: 1,
  loadNumber: 1,
  gaps: 0,
  contextSeconds,
  stageContextSeconds,
  report: {
    isPlaying: true,
    stageKind: 'play',
    pass: 0,
    stageNumber: 1,
    stageStartFrame: 0,
    positionSeconds: 0,
    stageEndSeconds: 8,
    rate: 1,
    frame: 0,
    ...report,
  },
});

function followed(): { place: PlayingPosition; hear: (seconds: number) => void } {
  let heard = 0;
  const place = new PlayingPosition(() => heard);
  place.setPerformance(performance);
  return { place, hear: (seconds) => (heard = seconds) };
}

describe('the sounding moment', () => {
  it('goes on from the last report by the device’s clock and the tempo', () => {
    const { place, hear } = followed();
    place.follow(reported({ positionSeconds: 2, rate: 0.5 }, 10));
    hear(11);
    expect(place.getSeconds()).toBeCloseTo(2.5, 9);
    expect(place.getTicks()).toBeCloseTo(2.5 * ticksPerQuarter, 6);
  });

  it('waits at the end of its stage until the next one is reported, and turns when that is heard', () => {
    const { place, hear } = followed();
    place.follow(reported({ positionSeconds: 3.9, stageEndSeconds: 4 }, 10));
    hear(10.3);
    expect(place.getSeconds()).toBe(4);
    place.follow(reported({ positionSeconds: 0.2, stageEndSeconds: 4, stageNumber: 2 }, 10.3, 10.1));
    hear(10.05);
    expect(place.getSeconds()).toBeCloseTo(3.95, 9);
    hear(10.2);
    expect(place.getSeconds()).toBeCloseTo(0.1, 9);
  });

  it('stands at the beginning during a count-in, and rests where it was put or where it stopped', () => {
    const { place, hear } = followed();
    place.follow(reported({ stageKind: 'countIn', positionSeconds: -2, stageEndSeconds: 1 }, 10));
    hear(10.5);
    expect(place.getSeconds()).toBe(1);
    place.rest(3);
    expect(place.getSeconds()).toBe(3);
    place.follow(reported({ isPlaying: false, positionSeconds: 8 }, 20));
    expect(place.getSeconds()).toBe(8);
  });
});
