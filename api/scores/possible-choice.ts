import type { PartChoice, ReadingChoice, ScoreReading } from '../../contract/index.ts';
import { DomainError } from '../errors/domain-error.ts';
import { openChoices } from './open-choices.ts';

const refuse = (detail: string): never => {
  throw new DomainError('body-invalid', `${detail} Nothing was read again.`);
};

/** The tune that is meant: the file's first where none is named. */
function tuneOf({ tune }: ReadingChoice, { format, tunes }: ScoreReading): number | null {
  if (format !== 'abc') return tune === null ? null : refuse('Only ABC files have tunes to choose from.');
  if (tune === null) return tunes[0]?.number ?? null;
  if (tunes.some(({ number }) => number === tune)) return tune;
  return refuse(`The file has no tune ${tune}; it has ${tunes.map(({ number }) => number).join(', ')}.`);
}

function refuseUnopen({ part, capo }: PartChoice, sounding: ScoreReading['sounding']): void {
  const own = sounding.find((one) => one.part === part);
  if (own === undefined && sounding.length === 0)
    refuse('No part of this score has frets and notes, so there is no octave and no capo to choose.');
  if (own === undefined)
    refuse(
      `There is no octave to choose for part ${part}; there is for ${sounding.map((one) => one.part).join(', ')}.`,
    );
  if (capo !== null && own?.capo === null) refuse(`Part ${part} has no capo, so there is nothing to choose about it.`);
}

/** A choice in full, its parts in the order of the score and without those for which nothing is chosen. **Errors** `body-invalid` for what the file does not leave open. */
export function possibleChoice(choice: ReadingChoice, reading: ScoreReading): ReadingChoice {
  if (choice.grid !== null && reading.format !== 'midi') refuse('A grid is chosen for MIDI files only.');
  for (const one of choice.sounding) refuseUnopen(one, reading.sounding);
  return {
    tune: tuneOf(choice, reading),
    grid: choice.grid,
    sounding: openChoices(choice.sounding, reading.sounding),
  };
}
