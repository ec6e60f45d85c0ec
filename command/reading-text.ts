import type { FileChoices, ReadFile, SoundingEvidence, SoundingReading } from '../music/index.ts';
import { counted, listed } from './say.ts';

const believed: Readonly<Record<SoundingEvidence, string>> = {
  person: 'as chosen',
  transposition: 'by its transposition',
  clef: 'by its clef',
  frets: 'by its strings and frets',
  assumption: 'assumed',
};

function octaveText({ octave, octaveBy }: SoundingReading): string {
  const far = counted(Math.abs(octave), 'octave');
  const where = octave === 0 ? 'as its pitches say' : `${far} ${octave < 0 ? 'below' : 'above'} its pitches`;
  return `sounds ${where} (${believed[octaveBy]})`;
}

function capoText({ capo }: SoundingReading): string {
  if (capo === null) return '';
  const are = capo.are === 'shapes' ? 'in shapes before the capo' : 'as it sounds with the capo';
  return `, written ${are} (${believed[capo.by]})`;
}

/** How a part’s pitches were read, to stand behind what the part is; empty for a part that leaves nothing open. */
export function soundingText(part: string, { sounding }: Pick<ReadFile, 'sounding'>): string {
  const own = sounding.find((reading) => reading.part === part);
  return own === undefined ? '' : `; ${octaveText(own)}${capoText(own)}`;
}

/** What the format left open, a line each. */
export function choiceLines({ tunes = [], grid = [] }: FileChoices): readonly string[] {
  const found = tunes.map(({ number, title }) => (title === '' ? String(number) : `${number} (${title})`));
  const kinds = grid.map(({ firstBar, lastBar, kind }) => `${kind} in bars #${firstBar} to #${lastBar}`);
  return [
    ...(tunes.length > 1 ? [`Tunes in the file, one of which is read: ${listed(found)}`] : []),
    ...(grid.length > 0 ? [`Time is counted: ${listed(kinds)}`] : []),
  ];
}
