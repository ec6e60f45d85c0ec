import type { LabelKind } from '../../lib/own-singing.ts';
import { WordChoice } from '../word-choice.tsx';

const words: Readonly<Record<LabelKind, string>> = {
  names: 'note names',
  degrees: 'scale degrees',
  solfa: 'do, re, mi',
  words: 'words',
  none: 'nothing',
};

const shortWords: Readonly<Record<LabelKind, string>> = {
  names: 'with note names',
  degrees: 'with scale degrees',
  solfa: 'with do, re, mi',
  words: 'with words',
  none: 'without labels',
};

interface LabelsChoiceProps {
  readonly labels: LabelKind;
  /** Whether the music is sung to words. */
  readonly hasWords: boolean;
  readonly onChoose: (labels: LabelKind) => void;
}

/** What stands at the notes of the ribbons, and what else could. */
export function LabelsChoice({ labels, hasWords, onChoose }: LabelsChoiceProps) {
  const kinds = (['names', 'degrees', 'solfa', 'words', 'none'] as const).filter(
    (kind) => hasWords || kind !== 'words',
  );
  const shown = labels === 'words' && !hasWords ? 'names' : labels;
  return (
    <WordChoice
      label="On the ribbons"
      value={shown}
      options={kinds.map((value) => ({ value, text: words[value] }))}
      onChoose={onChoose}
    >
      {shortWords[shown]}
    </WordChoice>
  );
}
