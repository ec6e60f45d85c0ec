import { useMutation, useQuery } from '@tanstack/react-query';
import { useMemo, useState } from 'react';
import type { NamedMix } from '../../../contract/index.ts';
import { splitFromSnapshot, type Excerpt } from '../../../music/index.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { arrangementIn } from '../../lib/arranged-music.ts';
import { FilledButton } from '../../ui/buttons.tsx';
import { Slip } from '../../ui/dialog.tsx';
import { CountedProgress, Notice, Wait } from '../../ui/notice.tsx';
import { ExportForm } from './export-form.tsx';
import { firstChoice, isSoundKind, sizeWords, type DocumentKind, type ExportChoice } from './export-wish.ts';
import styles from './export.module.css';
import { madeArchive } from './make-archive.ts';
import {
  engravers,
  served,
  type ExportedSong,
  type MadeFile,
  type MakingProgress,
  type OnProgress,
} from './make-files.ts';
import { saveFile } from './save-file.ts';
import { SoundDesk } from './sound-desk.tsx';

interface ExportSlipProps {
  readonly songId: string;
  /** The bars that are open, if any are. */
  readonly excerpt: Excerpt | null;
  /** What is heard just now, where that is otherwise than everybody plainly. */
  readonly heard?: NamedMix | null;
  readonly isOpen: boolean;
  readonly onClose: () => void;
}

/** Takes a song out of Heddle: as pages, pictures or notes for other programs. */
export const ExportSlip = ({ songId, excerpt, heard = null, isOpen, onClose }: ExportSlipProps) => (
  <Slip title="Take it out" isOpen={isOpen} onClose={onClose}>
    <ExportDesk songId={songId} excerpt={excerpt} heard={heard} />
  </Slip>
);

function useSong(
  songId: string,
  excerpt: Excerpt | null,
): { readonly song: ExportedSong | null; readonly failure: Error | null } {
  const detail = useQuery(queries.song(songId));
  const text = useQuery(queries.scoreText(songId));
  const split = useQuery({ ...queries.split(songId), staleTime: 0 });
  const song = useMemo(() => {
    if (detail.data === undefined || text.data === undefined || split.data === undefined) return null;
    const { id, title, composer, arrangementParts } = detail.data;
    const score = arrangementIn(text.data, arrangementParts);
    return { id, title, composer, excerpt, score, musicXml: text.data, split: splitFromSnapshot(split.data) };
  }, [detail.data, text.data, split.data, excerpt]);
  return { song, failure: detail.error ?? text.error ?? split.error };
}

function make(song: ExportedSong, choice: ExportChoice, kind: DocumentKind, onProgress: OnProgress): Promise<MadeFile> {
  if (kind === 'archive') return madeArchive(song, choice, onProgress);
  if (kind === 'musicxml' || kind === 'mxl' || kind === 'midi' || kind === 'abc')
    return served(song, choice, kind, onProgress);
  return engravers[kind](song, choice, onProgress);
}

function ExportDesk({ songId, excerpt, heard }: Required<Pick<ExportSlipProps, 'songId' | 'excerpt' | 'heard'>>) {
  const { song, failure } = useSong(songId, excerpt);
  const [choice, setChoice] = useState(() => firstChoice(excerpt !== null));
  const [progress, setProgress] = useState<MakingProgress | null>(null);
  const making = useMutation({
    mutationFn: async (asked: {
      readonly song: ExportedSong;
      readonly choice: ExportChoice;
      readonly kind: DocumentKind;
    }) => {
      const made = await make(asked.song, asked.choice, asked.kind, setProgress);
      saveFile(made.name, made.bytes);
      return made;
    },
    onSettled: () => setProgress(null),
  });
  if (failure !== null) return <Notice kind="trouble">{plainWords(failure)}</Notice>;
  if (song === null) return <Wait>Fetching the song…</Wait>;
  const take = (next: ExportChoice) => {
    making.reset();
    setChoice(next);
  };
  const { kind } = choice;
  if (isSoundKind(kind))
    return (
      <div className={styles.desk}>
        <ExportForm song={song} choice={choice} onChoice={take} />
        <SoundDesk
          key={`${kind} ${choice.isExcerpt}`}
          song={song}
          heard={heard}
          format={kind}
          isExcerpt={choice.isExcerpt}
        />
      </div>
    );
  return (
    <div className={styles.desk}>
      <ExportForm song={song} choice={choice} onChoice={take} />
      <FilledButton isDisabled={making.isPending} onPress={() => making.mutate({ song, choice, kind })}>
        Make the file
      </FilledButton>
      {making.isPending ? <Making progress={progress} /> : null}
      {making.isError ? (
        <Notice kind="trouble">
          The file was not made: {plainWords(making.error)} Nothing in the song was changed.
        </Notice>
      ) : null}
      {making.data === undefined ? null : <Made file={making.data} />}
    </div>
  );
}

const Making = ({ progress }: { readonly progress: MakingProgress | null }) =>
  progress === null || progress.total < 2 ? (
    <Wait>{progress?.label ?? 'Beginning'}…</Wait>
  ) : (
    <CountedProgress label={progress.label} done={progress.done} total={progress.total} />
  );

const Made = ({ file }: { readonly file: MadeFile }) => (
  <div role="status" className={styles.made}>
    <p>
      <b>{file.name}</b> is made ({sizeWords(file.bytes.length)}) and goes where your browser keeps downloads.
    </p>
    {file.notes.length === 0 ? null : (
      <>
        <p>What is not as it was:</p>
        <ul>
          {file.notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      </>
    )}
  </div>
);
