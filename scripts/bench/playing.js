import { onPage } from './served-page.js';
import { row, shown } from './measure.js';

const playedSeconds = 60;

/** Four lines looped for a minute in a browser: how often the device went without sound, by the browser's own count and by the worklet's. */
async function play(page, address) {
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
  return {
    seconds: after.frames - before.frames,
    gaps: after.gaps - before.gaps,
    underruns: after.underruns === null ? null : after.underruns - before.underruns,
    told: after.told,
  };
}

/** Whether the sound breaks off while a browser plays; a minute long, so it runs when it is named only. */
export async function bench() {
  const { seconds, gaps, underruns, told } = await onPage('sound-page', play);
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
