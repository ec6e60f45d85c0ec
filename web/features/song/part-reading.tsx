import type { PartChoice, ScoreReading } from '../../../contract/index.ts';
import { Pick } from '../../ui/choice.tsx';
import { capoOptions, octaveOptions, soundingWords, unchosenWords } from './reading-words.ts';
import styles from './song.module.css';

interface PartReadingProps {
  readonly name: string;
  readonly sounding: ScoreReading['sounding'][number];
  readonly choice: PartChoice | undefined;
  readonly onChoice: (choice: PartChoice) => void;
}

/** How the pitches of one part were read, what was believed for it, and what else they could be. */
export function PartReading({ name, sounding, choice, onChoice }: PartReadingProps) {
  const unchosen = unchosenWords(sounding);
  const own = choice ?? { part: sounding.part, octave: null, capo: null };
  return (
    <fieldset className={styles.partReading}>
      <legend>{name}</legend>
      <p>{soundingWords(sounding)}</p>
      {unchosen === null ? null : <p className={styles.quiet}>{unchosen}</p>}
      <Pick
        label="Let it sound"
        value={own.octave === null ? '' : String(own.octave)}
        options={octaveOptions}
        onPick={(octave) => onChoice({ ...own, octave: octave === '' ? null : Number(octave) })}
      />
      {sounding.capo === null ? null : (
        <Pick
          label="With the capo, its notes are"
          value={own.capo ?? ''}
          options={capoOptions}
          onPick={(capo) => onChoice({ ...own, capo: capo === '' ? null : capo })}
        />
      )}
    </fieldset>
  );
}
