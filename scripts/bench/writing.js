import { excerptOfBars, readScoreFile, writeOut, writeWrittenScore } from '../../dist/music/index.js';
import { medianMs, row, shown } from './measure.js';
import { plainMusicXml } from './reading.js';

/** 2,000 notes, each on one of two lines by turns. */
function twoLines(score) {
  const lines = ['a', 'b'].map((id) => ({
    id,
    name: id,
    role: 'melody',
    dye: 'madder',
    letter: id,
    orderKey: id,
    isRetired: false,
  }));
  const mark = (index) => ({ lines: [lines[index % 2].id], from: 'person', confidence: null, revision: 1 });
  return { revision: 1, lines, marks: new Map(score.notes.map(({ id }, index) => [id, mark(index)])) };
}

/** Writing lines out, and the MusicXML of them. */
export function bench() {
  const bytes = new TextEncoder().encode(plainMusicXml(2000));
  const { score } = readScoreFile(bytes, { fileName: 'bench.musicxml', firstNoteNumber: 1, firstBarNumber: 1 }).value;
  const split = twoLines(score);
  const whole = excerptOfBars(score, score.bars[0].id, score.bars.at(-1).id);
  const write = (lengths) => medianMs(() => writeOut(score, split, whole, { lengths }));
  const modes = ['written', 'next', 'string'].map((lengths) => [lengths, write(lengths)]);
  const { value } = writeOut(score, split, whole, { lengths: 'written' });
  const text = medianMs(() => writeWrittenScore(value));
  const slowest = Math.max(...modes.map(([, ms]) => ms));
  return [
    row(
      '2,000 notes written out',
      '≤ 50 ms',
      `${shown(slowest)} ms`,
      slowest <= 50,
      modes.map(([lengths, ms]) => `${lengths} ${shown(ms)}`).join(', '),
    ),
    row('the MusicXML of that', 'none', `${shown(text)} ms`),
  ];
}
