import { createServer } from 'node:http';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { chromium } from 'playwright-core';
import { build } from 'vite';
import { root } from '../ensure.js';
import { row, shown } from './measure.js';

const playedSeconds = 60;
const types = { '.html': 'text/html', '.js': 'text/javascript' };

async function served() {
  const folder = await mkdtemp(join(tmpdir(), 'heddle-playing-'));
  await build({
    root: join(root, 'tests', 'browser', 'sound-page'),
    configFile: false,
    logLevel: 'error',
    build: { outDir: folder, emptyOutDir: true },
    worker: { rolldownOptions: { treeshake: { moduleSideEffects: false } } },
  });
  const server = createServer((request, response) => {
    const path = request.url === '/' ? '/index.html' : request.url;
    readFile(join(folder, path)).then(
      (bytes) => response.writeHead(200, { 'content-type': types[extname(path)] ?? 'text/plain' }).end(bytes),
      () => response.writeHead(404).end(),
    );
  });
  await new Promise((listening) => server.listen(0, '127.0.0.1', listening));
  const close = async () => {
    server.close();
    await rm(folder, { recursive: true });
  };
  return { address: `http://127.0.0.1:${server.address().port}/`, close };
}

/** Four lines looped for a minute in a browser: how often the device went without sound, by the browser's own count and by the worklet's. */
async function play(address) {
  const browser = await chromium.launch({
    executablePath: process.env.HEDDLE_CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--autoplay-policy=no-user-gesture-required'],
  });
  const page = await browser.newPage();
  await page.addInitScript(() => {
    const Original = window.AudioWorkletNode;
    window.AudioWorkletNode = class extends Original {
      constructor(context, ...rest) {
        super(context, ...rest);
        window.soundContext = context;
        this.port.addEventListener('message', ({ data }) => {
          if (data.type === 'report') window.lastReport = data;
        });
      }
    };
  });
  await page.goto(address);
  await page.waitForFunction(() => 'player' in window);
  await page.evaluate(() => window.player.setLoop({ startTicks: 0, endTicks: 1e9 }));
  await page.click('button');
  await page.waitForFunction(() => window.player.getSnapshot().status === 'playing');
  const state = () =>
    page.evaluate(() => ({
      frames: window.lastReport.report.frame / window.soundContext.sampleRate,
      gaps: window.lastReport.gaps,
      underruns: window.soundContext.playbackStats?.underrunEvents ?? null,
      told: window.player.getSnapshot().breaks,
    }));
  const before = await state();
  await new Promise((passed) => setTimeout(passed, playedSeconds * 1000));
  const after = await state();
  await browser.close();
  return {
    seconds: after.frames - before.frames,
    gaps: after.gaps - before.gaps,
    underruns: after.underruns === null ? null : after.underruns - before.underruns,
    told: after.told,
  };
}

/** Whether the sound breaks off while a browser plays; a minute long, so it runs when it is named only. */
export async function bench() {
  const { address, close } = await served();
  const { seconds, gaps, underruns, told } = await play(address);
  await close();
  const counted = underruns ?? gaps;
  return [
    row(
      `underruns in ${playedSeconds} s of four lines in the browser`,
      'none',
      `${counted}`,
      counted === 0 && seconds > playedSeconds * 0.95,
      `${gaps} leaps of the clock, ${shown(seconds)} s rendered, the page tells ${told}`,
    ),
  ];
}
