import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  lineId,
  mixOfOnly,
  plainMix,
  renderLines,
  renderPerformance,
  secondsAtTicks,
  type EngineMix,
  type LineId,
  type Performance,
  type SecondsRange,
} from '../../music/index.ts';
import type { Player } from '../../web/playback/player.ts';
import { decided } from '../same/decided.ts';
import { launchBrowser } from '../support/browser.ts';
import { servePage, type BuiltPage } from '../support/built-page.ts';
import { dot, rms } from '../support/least-squares.ts';
import {
  catchSound,
  caughtSound,
  firstSoundAfter,
  levelsOfLines,
  loseDevice,
  placesSoFar,
  soundFrom,
} from '../support/sound-capture.ts';
import {
  latenesses,
  onsetHeardSeconds,
  onsetSampleRate,
  onsetVolumeDb,
  placedNotesOf,
  risesOf,
} from '../support/placed-notes.ts';
import { above8kHz, lagOf, windowsOf } from '../support/sound-windows.ts';
import { littlePerformance } from './sound-page/little-performance.ts';

interface SoundWindow {
  readonly player: Player;
  readonly offline: (sampleRate: number, sampleCount: number) => Promise<string>;
  readonly offlineLeft: (
    performance: Performance,
    mix: EngineMix,
    seconds: number,
    sampleRate: number,
    loop: SecondsRange | null,
  ) => Promise<string>;
}

interface OfflineWish {
  readonly seconds: number;
  readonly sampleRate: number;
  readonly loop: SecondsRange | null;
}

const performance = littlePerformance();
let built: BuiltPage;
let browser: Browser;

beforeAll(async () => {
  built = await servePage(join(import.meta.dirname, 'sound-page'));
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser.close();
  await built.close();
});

async function openPlayer(): Promise<Page> {
  const page = await browser.newPage();
  await catchSound(page);
  await page.goto(built.address);
  await page.waitForFunction(() => 'player' in window);
  return page;
}

const playing = (page: Page, status: string): Promise<unknown> =>
  page.waitForFunction((wanted) => (window as unknown as SoundWindow).player.getSnapshot().status === wanted, status);
const positionPast = (page: Page, ticks: number): Promise<unknown> =>
  page.waitForFunction((wanted) => (window as unknown as SoundWindow).player.position.getTicks() > wanted, ticks);
/** The left side of a performance as the page's worklet renders it. */
async function offlineLeft(page: Page, played: Performance, mix: EngineMix, wish: OfflineWish): Promise<Float32Array> {
  const text = await page.evaluate(
    ([music, levels, { seconds, sampleRate, loop }]) =>
      (window as unknown as SoundWindow).offlineLeft(music, levels, seconds, sampleRate, loop),
    [played, mix, wish] as const,
  );
  const bytes = Buffer.from(text, 'base64');
  return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
}

const lastTicks = performance.ranges.at(-1)!.endTicks;
const sampleCount = (sampleRate: number): number => Math.floor((performance.lengthSeconds - 0.1) * sampleRate);

describe.concurrent('sound in a real browser', () => {
  it('is the same to the last bit in the worklet as was decided, at 44.1 and 48 kHz', async () => {
    const page = await openPlayer();
    for (const sampleRate of [44_100, 48_000] as const) {
      const { left } = renderPerformance(performance, mixOfOnly(performance, performance.lines, true), { sampleRate });
      expect(rms(left)).toBeGreaterThan(1e-3);
      const there = await page.evaluate(([rate, count]) => (window as unknown as SoundWindow).offline(rate, count), [
        sampleRate,
        left.length,
      ] as const);
      expect(there).toBe(decided.sound[sampleRate]);
    }
    await page.close();
  });

  it('lets a soloed line be heard alone: least squares finds the others at −50 dB or less; it starts with the bar', async () => {
    const page = await openPlayer();
    await page.evaluate(() => (window as unknown as SoundWindow).player.setLine('middle' as LineId, { isSolo: true }));
    await page.click('button');
    await positionPast(page, lastTicks * 0.98);
    await playing(page, 'stopped');
    const caught = await caughtSound(page);
    const stage = caught.stages.find(({ kind }) => kind === 'play')!;
    expect(firstSoundAfter(caught, stage)).toBeLessThan(0.05);
    const renders = renderLines(performance, { sampleRate: caught.sampleRate });
    const heard = soundFrom(caught, stage, sampleCount(caught.sampleRate));
    const levels = levelsOfLines(heard, renders);
    expect(levels.get(lineId('middle'))!).toBeCloseTo(0, 2);
    for (const [line, levelDb] of levels) if (line !== 'middle') expect(levelDb).toBeLessThan(-50);
    const alone = renders.get(lineId('middle'))!.left.subarray(0, heard.left.length);
    const rest = heard.left.map((value, index) => value - alone[index]!);
    expect(10 * Math.log10(dot(rest, rest) / dot(alone, alone))).toBeLessThan(-100);
    await page.close();
  });

  it('loops without a gap: the hundredth time comes where a hundred exact periods end', async () => {
    const page = await openPlayer();
    const sampleRate = 48_000;
    const loop = { startSeconds: 0, endSeconds: 0.1503 };
    const period = loop.endSeconds * sampleRate;
    const mix = mixOfOnly(performance, [lineId('taps')], false);
    const left = await offlineLeft(page, performance, mix, { seconds: 15.4, sampleRate, loop });
    const firstTime = left.subarray(Math.ceil(10 * period), Math.ceil(10 * period) + 2000);
    for (let time = 11; time <= 101; time += 1) {
      const expected = Math.ceil(time * period - 1e-6);
      expect(Math.abs(lagOf(firstTime, left, expected, 24))).toBeLessThanOrEqual(1);
    }
    await page.close();
  });

  it('changes tempo without a jump, and follows on the position', async () => {
    const page = await openPlayer();
    await page.click('button');
    await positionPast(page, lastTicks * 0.15);
    await page.evaluate(() => (window as unknown as SoundWindow).player.setRate(50));
    await positionPast(page, lastTicks * 0.25);
    await page.evaluate(() => (window as unknown as SoundWindow).player.setRate(150));
    await positionPast(page, lastTicks * 0.5);
    await page.evaluate(() => (window as unknown as SoundWindow).player.stop());
    const { places, sampleRate } = await caughtSound(page);
    expect(new Set(places.map(({ rate }) => rate))).toEqual(new Set([1, 0.5, 1.5]));
    for (const [index, place] of places.slice(1).entries()) {
      const before = places[index]!;
      const [slow, fast] = [before.rate, place.rate].sort((a, b) => a - b) as [number, number];
      const step = place.positionSeconds - before.positionSeconds;
      const elapsed = (place.frame - before.frame) / sampleRate;
      expect(step).toBeGreaterThanOrEqual(slow * elapsed - 1e-9);
      expect(step).toBeLessThanOrEqual(fast * elapsed + 1e-9);
    }
    await page.close();
  });

  it('mutes a ringing line without a click: no more above 8 kHz than while it rang, and nearly nothing after', async () => {
    const page = await openPlayer();
    await page.evaluate(() => (window as unknown as SoundWindow).player.setLine('bass' as LineId, { isSolo: true }));
    await page.click('button');
    await page.evaluate((ticks) => {
      const { player } = window as unknown as SoundWindow;
      const end = player.position.subscribe((now) => {
        if (now <= ticks) return;
        end();
        player.setLine('bass' as LineId, { isMuted: true });
      });
    }, lastTicks * 0.62);
    await playing(page, 'stopped');
    const caught = await caughtSound(page);
    const start = caught.stages[0]!.startFrame - caught.firstFrame;
    const window = Math.round(0.005 * caught.sampleRate);
    const at = (seconds: number): number => start + Math.round(seconds * caught.sampleRate);
    const [struck, end] = [at(2.4 + 0.3), at(performance.lengthSeconds - 0.05)];
    const loudness = windowsOf(caught.left.subarray(struck, end), window).map(rms);
    const muted = loudness.findIndex((level) => level < loudness[0]! / 30);
    expect(muted).toBeGreaterThan(10);
    const high = windowsOf(above8kHz(caught.left.subarray(struck, end), caught.sampleRate), window).map(rms);
    const steady = Math.max(...high.slice(4, muted - 10));
    expect(Math.max(...high.slice(muted - 10, muted + 40))).toBeLessThanOrEqual(2 * steady);
    expect(rms(caught.left.subarray(end - window, end))).toBeLessThan(loudness[0]! / 100); // the room and the other strings
    await page.close();
  });

  it('is silent where every line is muted', async () => {
    const page = await openPlayer();
    const left = await offlineLeft(page, performance, mixOfOnly(performance, [], false), {
      seconds: 3,
      sampleRate: 48_000,
      loop: null,
    });
    expect(left.every((value) => value === 0)).toBe(true);
    expect(left.length).toBe(3 * 48_000);
    await page.close();
  });

  it('begins each note of a registry file within 3 ms of verovio’s timemap, one constant offset removed', async () => {
    const page = await openPlayer();
    const { performance: played, notes } = await placedNotesOf('v3/BrookeWestSample.xml');
    const mix = { lines: [], loose: { ...plainMix, levelDb: onsetVolumeDb } };
    const left = await offlineLeft(page, played, mix, {
      seconds: onsetHeardSeconds,
      sampleRate: onsetSampleRate,
      loop: null,
    });
    const late = latenesses(risesOf(left), notes);
    const offset = [...late].sort((a, b) => a - b)[late.length >> 1]!;
    expect(late.length).toBeGreaterThan(15);
    expect(late.filter((each) => !(Math.abs(each - offset) <= 0.003))).toEqual([]);
    await page.close();
  });

  it('walks through a programme: heard, silent for as long, heard again', async () => {
    const page = await openPlayer();
    await page.evaluate((ticks) => {
      const { player } = window as unknown as SoundWindow;
      const both = { kind: 'play', lines: [{ line: 'melody' as LineId, levelDb: 0 }] } as const;
      player.setLoop({ startTicks: 0, endTicks: ticks });
      player.setProgramme({ passes: [both, { kind: 'silence', withClick: false }, both], afterLast: 'stop' });
    }, performance.bars[0]!.lengthTicks / 2);
    await page.click('button');
    await playing(page, 'playing');
    await playing(page, 'stopped');
    const caught = await caughtSound(page);
    expect(caught.stages.map(({ kind, pass }) => [kind, pass])).toEqual([
      ['play', 0],
      ['silence', 1],
      ['play', 2],
    ]);
    const length = caught.stages[1]!.startFrame - caught.stages[0]!.startFrame;
    const lastQuarterOf = (index: number): number =>
      rms(soundFrom(caught, caught.stages[index]!, length).left.subarray(Math.round(length * 0.75)));
    expect(lastQuarterOf(0)).toBeGreaterThan(1e-3);
    expect(lastQuarterOf(1)).toBeLessThan(lastQuarterOf(0) / 30);
    expect(firstSoundAfter(caught, caught.stages[2]!)).toBeLessThan(0.05);
    await page.close();
  });

  it('goes on at the same place, by itself, when its sound device is lost while it plays', async () => {
    const page = await openPlayer();
    await page.click('button');
    await positionPast(page, lastTicks * 0.2);
    const before = await page.evaluate(() => (window as unknown as SoundWindow).player.position.getTicks());
    const knownCount = (await placesSoFar(page)).places.length;
    await loseDevice(page);
    await positionPast(page, before + lastTicks * 0.1);
    const { status, problem } = await page.evaluate(() => (window as unknown as SoundWindow).player.getSnapshot());
    expect({ status, problem }).toEqual({ status: 'playing', problem: null });
    const { places, deviceCount } = await placesSoFar(page);
    expect(deviceCount).toBe(2);
    const reopened = places.slice(knownCount).find(({ frame }) => frame < 48_000 / 4)!;
    const secondsBefore = secondsAtTicks(performance.timeMap, before);
    expect(reopened.positionSeconds).toBeGreaterThan(secondsBefore - 0.1);
    expect(reopened.positionSeconds).toBeLessThan(secondsBefore + 0.5);
    await page.evaluate(() => (window as unknown as SoundWindow).player.stop());
    await page.close();
  });
});
