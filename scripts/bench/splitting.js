import { scoreOfPiece } from '../../dist/measure/piece-score.js';
import { lineId, separateVoices, splitProposer } from '../../dist/music/index.js';
import { medianMs, row, shown } from './measure.js';
import { wanderingVoices } from './pieces.js';

const context = { ticksPerQuarter: 12, meters: [{ onsetTicks: 0, beats: 4, beatUnit: 4 }] };
const split = (notes, more = {}) => separateVoices(notes, { ...context, ...more });

/** What a correction in the middle of a song starts from: a first proposal that was taken, and one note of it put on another line. */
function corrected(notes) {
  const score = scoreOfPiece({ id: 'song', ...context, notes });
  let made = 0;
  const newLineId = () => lineId(`line-${++made}`);
  const proposer = splitProposer(score);
  const { lines, marks } = proposer.propose({ lineCount: 4, pins: new Map(), lines: [], newLineId });
  const { id } = score.notes[notes.length >> 1];
  const other = lines.find((line) => !marks.get(id).lines.includes(line.id));
  const present = new Map([...marks].map(([note, mark]) => [note, mark.lines]));
  return { proposer, options: { lineCount: 4, pins: new Map([[id, [other.id]]]), present, lines, newLineId } };
}

/** The proposal's speed, and how it grows. */
export function bench() {
  const song = wanderingVoices(2000);
  const unaided = medianMs(() => split(song));
  const four = medianMs(() => split(song, { lineCount: 4 }));
  const { proposer, options } = corrected(song);
  const answered = medianMs(() => proposer.propose(options));
  const perNote = (count) => {
    const notes = wanderingVoices(count);
    return medianMs(() => split(notes, { lineCount: 4 })) / count;
  };
  const growth = perNote(200_000) / perNote(20_000);
  return [
    row('proposal, 2,000 notes, lines found from the music', '≤ 100 ms', `${shown(unaided)} ms`, unaided <= 100),
    row('proposal, 2,000 notes, four lines asked for', '≤ 100 ms', `${shown(four)} ms`, four <= 100),
    row('after a correction, 2,000 notes, first answer', '≤ 50 ms', `${shown(answered)} ms`, answered <= 50),
    row(
      'after a correction, 2,000 notes, the whole song',
      '≤ 150 ms',
      `${shown(answered)} ms`,
      answered <= 150,
      'the same answer',
    ),
    row('proposal, cost of a note at 200,000 notes against 20,000', '≤ 1.25×', `${shown(growth)}×`, growth <= 1.25),
  ];
}
