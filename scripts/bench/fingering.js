import { proposeFingering } from '../../dist/music/index.js';
import { scoreOfPiece } from '../../dist/measure/piece-score.js';
import { medianMs, row, shown } from './measure.js';
import { wanderingVoices } from './pieces.js';

const standard = { tuning: [64, 59, 55, 50, 45, 40], capo: 0, mostFrets: 20 };

/** How long a fingering takes. */
export function bench() {
  const notes = wanderingVoices(2000);
  const score = scoreOfPiece({
    id: 'song',
    ticksPerQuarter: 12,
    meters: [{ onsetTicks: 0, beats: 4, beatUnit: 4 }],
    notes,
  });
  const proposed = medianMs(() => proposeFingering(score, standard));
  return [row('strings and frets for 2,000 notes', '< 300 ms', `${shown(proposed)} ms`, proposed < 300)];
}
