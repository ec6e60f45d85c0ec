import { useQuery } from '@tanstack/react-query';
import { useEffect, useRef, useState } from 'react';
import type { NamedMix } from '../../../contract/index.ts';
import { activeLines } from '../../../music/index.ts';
import type { SoundFormat } from '../../../recording/index.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { EdgeButton, FilledButton } from '../../ui/buttons.tsx';
import { CountedProgress, Notice, Wait } from '../../ui/notice.tsx';
import styles from './export.module.css';
import { nameOfSound, type ExportedSong } from './make-files.ts';
import { makeSound, type SoundMaking } from './make-sound.ts';
import { saveBlob } from './save-file.ts';
import { firstSoundChoiceFor, soundWishOf, type SoundChoice } from './sound-choice.ts';
import { SoundForm } from './sound-form.tsx';
import { MadeSound, type SoundResult } from './made-sound.tsx';

interface SoundDeskProps {
  readonly song: ExportedSong;
  /** What is heard just now, chosen at first; null where everybody is heard plainly. */
  readonly heard: NamedMix | null;
  readonly format: SoundFormat;
  readonly isExcerpt: boolean;
}

type State =
  | { readonly kind: 'choosing' }
  | { readonly kind: 'making'; readonly share: number }
  | { readonly kind: 'made'; readonly result: SoundResult }
  | { readonly kind: 'failed'; readonly why: string };

/** Chooses and makes sound files; leaving it ends the work. */
export function SoundDesk({ song, heard, format, isExcerpt }: SoundDeskProps) {
  const sound = useQuery(queries.songSound(song.id));
  const [choice, setChoice] = useState<SoundChoice>(firstSoundChoiceFor(heard));
  const [state, setState] = useState<State>({ kind: 'choosing' });
  const making = useRef<SoundMaking | null>(null);
  useEffect(() => () => making.current?.cancel(), []);
  if (sound.error !== null) return <Notice kind="trouble">{plainWords(sound.error)}</Notice>;
  if (sound.data === undefined) return <Wait>Fetching the mixes…</Wait>;
  const { playing, mixes } = sound.data.body;
  const kept = { playing, mixes: heard === null ? mixes : [heard, ...mixes] };
  const begin = () => {
    const { hasStems, targetLufs } = choice;
    const wish = soundWishOf(song, kept, choice, isExcerpt);
    const request = { score: song.score, split: song.split, wish, hasStems, format, targetLufs };
    // What comes after a stop is of no interest any more.
    const put = (next: State) => {
      if (making.current === mine) setState(next);
    };
    const mine = makeSound(request, (share) => put({ kind: 'making', share }));
    making.current = mine;
    setState({ kind: 'making', share: 0 });
    mine.made.then(
      ({ blob, sounds, seconds }) => {
        if (making.current !== mine) return;
        const name = nameOfSound(song, isExcerpt, sounds.length === 1 ? format : 'zip');
        saveBlob(name, blob);
        put({ kind: 'made', result: { name, bytes: blob.size, sounds, seconds } });
      },
      (error: unknown) => put({ kind: 'failed', why: error instanceof Error ? error.message : String(error) }),
    );
  };
  const cancel = () => {
    making.current?.cancel();
    making.current = null;
    setState({ kind: 'choosing' });
  };
  const choose = (next: SoundChoice) => {
    setChoice(next);
    setState({ kind: 'choosing' });
  };
  return (
    <>
      <fieldset className={styles.quiet} disabled={state.kind === 'making'}>
        <SoundForm song={song} sound={kept} isExcerpt={isExcerpt} choice={choice} onChoice={choose} />
      </fieldset>
      {state.kind === 'making' ? (
        <div className={styles.making}>
          <CountedProgress label="Playing it into the file" done={state.share} total={1} />
          <EdgeButton onPress={cancel}>Stop</EdgeButton>
        </div>
      ) : (
        <FilledButton onPress={begin}>{choice.hasStems ? 'Make the files' : 'Make the file'}</FilledButton>
      )}
      {state.kind === 'failed' ? (
        <Notice kind="trouble">The file was not made: {state.why} Nothing in the song was changed.</Notice>
      ) : null}
      {state.kind === 'made' ? <MadeSound result={state.result} lines={activeLines(song.split)} /> : null}
    </>
  );
}
