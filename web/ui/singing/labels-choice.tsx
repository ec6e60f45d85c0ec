import { useMemo } from 'react';
import { versesOf, type Score } from '../../../music/index.ts';
import { useOwnSinging, type LabelKind } from '../../lib/own-singing.ts';
import { verseWords } from '../../lib/singing-words.ts';
import { WordChoice } from '../word-choice.tsx';
import styles from './singing.module.css';

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

/** The verses that the notes of a score are sung to. */
function useVerses({ notes, lyrics }: Pick<Score, 'notes' | 'lyrics'>): readonly string[] {
  return useMemo(() => {
    const known = new Set(notes.map(({ id }) => id));
    return versesOf(lyrics.filter(({ note }) => known.has(note)));
  }, [notes, lyrics]);
}

/** What stands at the notes of the ribbons, and what else could; of words in several verses which one. */
export function LabelsChoice({ score }: { readonly score: Pick<Score, 'notes' | 'lyrics'> }) {
  const [{ labels, verse }, keep] = useOwnSinging();
  const verses = useVerses(score);
  const [first] = verses;
  const kinds = (['names', 'degrees', 'solfa', 'words', 'none'] as const).filter(
    (kind) => first !== undefined || kind !== 'words',
  );
  const shown = labels === 'words' && first === undefined ? 'names' : labels;
  const sung = verses.find((each) => each === verse) ?? first;
  return (
    <div className={styles.row}>
      <WordChoice
        label="On the ribbons"
        value={shown}
        options={kinds.map((value) => ({ value, text: words[value] }))}
        onChoose={(chosen) => keep({ labels: chosen })}
      >
        {shortWords[shown]}
      </WordChoice>
      {shown === 'words' && sung !== undefined && verses.length > 1 ? (
        <WordChoice
          label="The verse that is sung"
          value={sung}
          options={verses.map((value) => ({ value, text: verseWords(value) }))}
          onChoose={(chosen) => keep({ verse: chosen })}
        >
          {verseWords(sung)}
        </WordChoice>
      ) : null}
    </div>
  );
}
