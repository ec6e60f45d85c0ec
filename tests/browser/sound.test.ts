import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lineId, mixOfOnly, renderLines, renderPerformance, type LineId } from '../../music/index.ts';
import type { Player } from '../../web/playback/player.ts';
import { decided } from '../same/decided.ts';
import { launchBrowser } from '../support/browser.ts';
import { servePage, type BuiltPage } from '../support/built-page.ts';
import { dot, rms } from '../support/least-squares.ts';
import { catchSound, caughtSound, firstSoundAfter, levelsOfLines, soundFrom } from '../support/sound-capture.ts';
import { littlePerformance } from './sound-page/little-performance.ts';

interface SoundWindow {
  readonly player: Player;
  readonly offline: (sampleRate: number, sampleCount: number) => Promise<string>;
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
const lastTicks = performance.ranges.at(-1)!.endTicks;
const sampleCount = (sampleRate: number): number => Math.floor((performance.lengthSeconds - 0.1) * sampleRate);

describe('sound in a real browser', () => {
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

  it('loops without a gap, changes tempo without a jump, and follows on the position', async () => {
    const page = await openPlayer();
    const quarter = performance.bars[0]!.lengthTicks / 4;
    await page.evaluate(
      (ticks) => (window as unknown as SoundWindow).player.setLoop({ startTicks: 0, endTicks: ticks }),
      quarter,
    );
    await page.click('button');
    await page.waitForFunction(
      () => (window as unknown as { caughtSound: { stages: unknown[] } }).caughtSound.stages.length >= 5,
    );
    const before = await caughtSound(page);
    const starts = before.stages.map(({ startFrame }) => startFrame);
    const period = 0.6 * before.sampleRate;
    for (const [index, start] of starts.entries())
      expect(Math.abs(start - starts[0]! - index * period)).toBeLessThanOrEqual(1);
    const ticks = await page.evaluate(() => (window as unknown as SoundWindow).player.position.getTicks());
    expect(ticks).toBeGreaterThanOrEqual(0);
    expect(ticks).toBeLessThanOrEqual(quarter);
    await page.evaluate(() => (window as unknown as SoundWindow).player.setRate(50));
    const count = starts.length;
    await page.waitForFunction(
      (known) => (window as unknown as { caughtSound: { stages: unknown[] } }).caughtSound.stages.length >= known + 4,
      count,
    );
    const after = (await caughtSound(page)).stages.map(({ startFrame }) => startFrame);
    expect(Math.abs(after.at(-1)! - after.at(-2)! - 2 * period)).toBeLessThanOrEqual(1);
    await page.evaluate(() => (window as unknown as SoundWindow).player.stop());
    await playing(page, 'stopped');
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
});
