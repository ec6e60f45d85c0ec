import { lineId, performLines, readScoreFile, wholeOf } from '../../dist/music/index.js';
import { demoPieces } from '../../dist/seed/demo-pieces.js';
import { trueMarks } from '../../dist/seed/true-marks.js';

/** The demo's first piece with the lines that its maker wrote. */
export function demoSplit() {
  const [demo] = demoPieces();
  const read = readScoreFile(new TextEncoder().encode(demo.musicXml), {
    fileName: 'demo.musicxml',
    firstNoteNumber: 1,
    firstBarNumber: 1,
  });
  if (!read.ok) throw new Error('The demo cannot be read');
  const { score } = read.value;
  const lines = demo.lines.map((line, index) => ({
    ...line,
    id: lineId(line.letter),
    orderKey: `a${index}`,
    isRetired: false,
  }));
  const marks = new Map(
    [...trueMarks(demo.piece, score).marks].map(([note, on]) => [
      note,
      { lines: on, from: 'person', confidence: null, revision: 1 },
    ]),
  );
  return { score, lines, marks };
}

/** It, performed as it is written. */
export function demoPerformance() {
  const { score, lines, marks } = demoSplit();
  return performLines(score, { lines, marks }, { range: wholeOf(score) });
}
