import { fingeringsOf, readScoreFile } from '../../dist/music/index.js';
import { medianMs, row, shown } from './measure.js';
import { plainMusicXml } from './reading.js';

/** How long a fingering takes. */
export function bench() {
  const bytes = new TextEncoder().encode(plainMusicXml(2000));
  const read = readScoreFile(bytes, { fileName: 'bench.musicxml', firstNoteNumber: 1, firstBarNumber: 1 });
  const { score } = read.value;
  const proposed = medianMs(() => fingeringsOf(score));
  const count = [...fingeringsOf(score).value.values()].filter(({ isProposed }) => isProposed).length;
  return [
    row('strings and frets for 2,000 notes', '< 300 ms', `${shown(proposed)} ms`, proposed < 300, `${count} proposed`),
  ];
}
