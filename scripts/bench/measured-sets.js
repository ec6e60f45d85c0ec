import { dataSetsIn } from '../../dist/measure/data-sets.js';
import { ownSets } from '../../dist/measure/own-sets.js';
import { separateVoices } from '../../dist/music/index.js';

/** What is measured: the data sets of the folder that `HEDDLE_VOICES_DIR` names, else the registry's files and arrangements of them, told with string and fret. */
export function measuredSets() {
  const folder = process.env.HEDDLE_VOICES_DIR;
  return folder ? dataSetsIn(folder) : ownSets('fingerboard');
}

/** The answer to a piece, labels as text. */
export function answerTo({ notes, ticksPerQuarter, meters }, lineCount) {
  const { labels, confidences } = separateVoices(notes, { ticksPerQuarter, meters, lineCount });
  return { labels: labels.map(String), confidences };
}
