import { separateVoices } from '../../dist/music/index.js';
import { medianMs, row, shown } from './measure.js';
import { wanderingVoices } from './pieces.js';

const context = { ticksPerQuarter: 12, meters: [{ onsetTicks: 0, meter: { beats: [4], beatUnit: 4 } }] };
const split = (notes, more = {}) => separateVoices(notes, { ...context, ...more });

/** The proposal's speed, and how it grows. */
export function bench() {
  const song = wanderingVoices(2000);
  const unaided = medianMs(() => split(song));
  const four = medianMs(() => split(song, { lineCount: 4 }));
  const perNote = (count) => {
    const notes = wanderingVoices(count);
    return medianMs(() => split(notes, { lineCount: 4 })) / count;
  };
  const growth = perNote(200_000) / perNote(20_000);
  return [
    row('proposal, 2,000 notes, lines found from the music', '≤ 100 ms', `${shown(unaided)} ms`, unaided <= 100),
    row('proposal, 2,000 notes, four lines asked for', '≤ 100 ms', `${shown(four)} ms`, four <= 100),
    row('proposal, cost of a note at 200,000 notes against 20,000', '≤ 1.25×', `${shown(growth)}×`, growth <= 1.25),
  ];
}
