import { dataSetsIn } from '../../dist/measure/data-sets.js';

/** What is measured: the data sets of the folder that `HEDDLE_VOICES_DIR` names. */
export function measuredSets() {
  const folder = process.env.HEDDLE_VOICES_DIR;
  if (folder === undefined || folder === '') throw new Error('HEDDLE_VOICES_DIR names no folder');
  return dataSetsIn(folder);
}
