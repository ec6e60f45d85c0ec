import type { ReadingChoice, ScoreReading } from '../../../contract/index.ts';
import { Pick } from '../../ui/choice.tsx';
import { capoOptions, gridOptions, octaveOptions, openChoices, tuneWords } from './reading-words.ts';

interface ReadingFormProps {
  readonly reading: ScoreReading;
  readonly choice: ReadingChoice;
  readonly onChoice: (choice: ReadingChoice) => void;
}

/** What a file leaves open, a sentence each. */
export function ReadingForm({ reading, choice, onChoice }: ReadingFormProps) {
  const open = openChoices(reading);
  const put = (change: Partial<ReadingChoice>) => onChoice({ ...choice, ...change });
  return (
    <>
      {open.tune ? (
        <Pick
          label="Of its tunes, take"
          value={String(choice.tune ?? '')}
          options={reading.tunes.map((tune) => ({ value: String(tune.number), text: tuneWords(tune) }))}
          onPick={(number) => put({ tune: Number(number) })}
        />
      ) : null}
      {open.grid ? (
        <Pick
          label="Count its time"
          value={choice.grid ?? ''}
          options={gridOptions}
          onPick={(grid) => put({ grid: grid === '' ? null : grid })}
        />
      ) : null}
      {open.octave ? (
        <Pick
          label="Let the guitar sound"
          value={choice.octave === null ? '' : String(choice.octave)}
          options={octaveOptions}
          onPick={(octave) => put({ octave: octave === '' ? null : Number(octave) })}
        />
      ) : null}
      {open.capo ? (
        <Pick
          label="With the capo, its notes are"
          value={choice.capo ?? ''}
          options={capoOptions}
          onPick={(capo) => put({ capo: capo === '' ? null : capo })}
        />
      ) : null}
    </>
  );
}
