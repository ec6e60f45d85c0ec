import type { ReadingChoice, ScoreReading } from '../../../contract/index.ts';
import type { ScoreFacts } from '../../lib/api/songs.ts';
import { Pick } from '../../ui/choice.tsx';
import { PartReading } from './part-reading.tsx';
import { partWords } from './fact-words.ts';
import { gridOptions, tuneWords, withPartChoice } from './reading-words.ts';

interface ReadingFormProps {
  readonly reading: ScoreReading;
  readonly facts: ScoreFacts;
  readonly choice: ReadingChoice;
  readonly onChoice: (choice: ReadingChoice) => void;
}

/** What a file leaves open, a sentence each; octave and capo part by part. */
export function ReadingForm({ reading, facts, choice, onChoice }: ReadingFormProps) {
  return (
    <>
      {reading.tunes.length > 1 ? (
        <Pick
          label="Of its tunes, take"
          value={String(choice.tune ?? '')}
          options={reading.tunes.map((tune) => ({ value: String(tune.number), text: tuneWords(tune) }))}
          onPick={(number) => onChoice({ ...choice, tune: Number(number) })}
        />
      ) : null}
      {reading.grid.length > 0 ? (
        <Pick
          label="Count its time"
          value={choice.grid ?? ''}
          options={gridOptions}
          onPick={(grid) => onChoice({ ...choice, grid: grid === '' ? null : grid })}
        />
      ) : null}
      {reading.sounding.map((sounding) => (
        <PartReading
          key={sounding.part}
          name={partWords(sounding.part, facts)}
          sounding={sounding}
          choice={choice.sounding.find(({ part }) => part === sounding.part)}
          onChoice={(own) => onChoice(withPartChoice(choice, own, reading))}
        />
      ))}
    </>
  );
}
