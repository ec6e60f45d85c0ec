import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { isSameChoice, type ReadingChoice } from '../../../contract/index.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { readScoreAgain, type SongDetail } from '../../lib/api/songs.ts';
import { EdgeButton } from '../../ui/buttons.tsx';
import { Notice, Wait } from '../../ui/notice.tsx';
import { ReadingForm } from './reading-form.tsx';
import { isOpen, readingSentences } from './reading-words.ts';
import styles from './song.module.css';

interface HowReadProps {
  readonly song: SongDetail;
  readonly score: NonNullable<SongDetail['score']>;
}

const noChoice: ReadingChoice = { tune: null, grid: null, sounding: [] };

/** How the file was read, and the ways in which it could be read otherwise. */
export function HowRead({ song, score: { reading, facts, version } }: HowReadProps) {
  const cache = useQueryClient();
  const [wanted, setWanted] = useState<ReadingChoice | null>(null);
  const again = useMutation({
    mutationFn: (choice: ReadingChoice) => readScoreAgain(song, choice),
    onSuccess: () => setWanted(null),
    onSettled: () => cache.invalidateQueries({ queryKey: queries.song(song.id).queryKey }),
  });
  const chosen = reading?.chosen ?? noChoice;
  const choice = wanted ?? chosen;
  const canChoose = reading === null || isOpen(reading);
  return (
    <section aria-labelledby="how-read" className={styles.reading}>
      <h2 id="how-read">How it was read</h2>
      {reading === null ? (
        <p>This file came before Heddle kept how it was read. Read it again to see what it leaves open.</p>
      ) : (
        <Told sentences={readingSentences(reading)} canChoose={canChoose} />
      )}
      {reading === null ? null : <ReadingForm reading={reading} facts={facts} choice={choice} onChoice={setWanted} />}
      {canChoose ? (
        <EdgeButton
          isDisabled={again.isPending || (reading !== null && isSameChoice(choice, chosen))}
          onPress={() => again.mutate(choice)}
        >
          Read it again
        </EdgeButton>
      ) : null}
      {again.isPending ? <Wait>Reading the file again…</Wait> : null}
      {again.isError ? <Notice kind="trouble">{plainWords(again.error)}</Notice> : null}
      {again.data?.version === version ? (
        <p role="status" className={styles.quiet}>
          Read again, as version {version}. Notes that were there before keep their marks.
        </p>
      ) : null}
    </section>
  );
}

const Told = ({ sentences, canChoose }: { readonly sentences: readonly string[]; readonly canChoose: boolean }) => (
  <p>
    {sentences.join(' ')}
    {canChoose
      ? ' If that is not how it is meant, choose here; the file itself stays as it is.'
      : ' It leaves nothing open.'}
  </p>
);
