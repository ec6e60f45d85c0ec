import { demoSplit } from './demo-song.js';
import { row, shown } from './measure.js';
import { onPage } from './served-page.js';

const mostSeconds = 15;
const ways = [
  ['wav', null],
  ['wav', -16],
  ['flac', -16],
];

/** The mix and a file of each of four lines of three minutes of music, made in a browser; it runs when it is named only. */
export async function bench() {
  const { score, lines, marks } = demoSplit();
  return onPage('files-page', async (page, address) => {
    const rows = [];
    for (const [format, targetLufs] of ways) {
      await page.goto(address);
      await page.waitForFunction(() => 'make' in window);
      const split = { revision: 1, lines, marks: [...marks] };
      const order = { score, split, format, targetLufs };
      const { tookSeconds, bytes, files, seconds } = await page.evaluate((asked) => window.make(asked), order);
      const level = targetLufs === null ? 'as played' : `at ${targetLufs} LUFS`;
      rows.push(
        row(
          `${files} ${format} files of three minutes in the browser, ${level}`,
          `≤ ${mostSeconds} s`,
          `${shown(tookSeconds)} s`,
          tookSeconds <= mostSeconds,
          `${shown(seconds)} s of sound, ${shown(bytes / 1e6)} MB`,
        ),
      );
    }
    return rows;
  });
}
