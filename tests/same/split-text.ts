import { separateVoices } from '../../music/index.ts';
import { sameSplits } from './split-notes.ts';

/** The answers whose hashes are compared, as text, one for each of `sameSplits`. */
export const splitTexts = (): readonly string[] =>
  sameSplits.map(({ notes, options }) => {
    const { labels, confidences } = separateVoices(notes, options);
    return JSON.stringify([labels, confidences]);
  });
