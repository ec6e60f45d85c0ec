import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { changeSong, type ScoreFacts, type SongDetail } from '../../lib/api/songs.ts';
import { EdgeButton } from '../../ui/buttons.tsx';
import { Check } from '../../ui/choice.tsx';
import { Notice } from '../../ui/notice.tsx';
import styles from './song.module.css';

interface ArrangementPartsProps {
  readonly song: SongDetail;
  readonly facts: ScoreFacts;
}

/** Which parts of the score are the arrangement that is split. Nothing to choose where only one sounds. */
export function ArrangementParts({ song, facts }: ArrangementPartsProps) {
  const sounding = facts.parts.filter((part) => part.soundingNotes > 0 && part.pairedWith === null);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set(song.arrangementParts ?? []));
  const cache = useQueryClient();
  const keeping = useMutation({
    mutationFn: () =>
      changeSong(song.id, { arrangementParts: facts.parts.map(({ id }) => id).filter((id) => chosen.has(id)) }),
    onSuccess: () => cache.invalidateQueries({ queryKey: queries.song(song.id).queryKey }),
  });
  if (sounding.length < 2) return null;
  const isChanged = sounding.some((part) => chosen.has(part.id) !== (song.arrangementParts ?? []).includes(part.id));
  const toggle = (id: string, isChosen: boolean) =>
    setChosen(new Set([...chosen].filter((each) => each !== id).concat(isChosen ? [id] : [])));
  return (
    <section aria-labelledby="parts" className={styles.parts}>
      <h2 id="parts">What is split</h2>
      <p>Choose the parts that make up the arrangement. The others stay in the file and keep silent.</p>
      {sounding.map((part) => (
        <Check key={part.id} isChosen={chosen.has(part.id)} onChange={(isChosen) => toggle(part.id, isChosen)}>
          {part.name === '' ? `Part ${part.id}` : part.name}{' '}
          <span className={styles.quiet}>{part.soundingNotes === 1 ? '1 note' : `${part.soundingNotes} notes`}</span>
        </Check>
      ))}
      {keeping.isError ? <Notice kind="trouble">{plainWords(keeping.error)}</Notice> : null}
      <EdgeButton isDisabled={!isChanged || chosen.size === 0 || keeping.isPending} onPress={() => keeping.mutate()}>
        Split these parts
      </EdgeButton>
    </section>
  );
}
