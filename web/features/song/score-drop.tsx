import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useId, useRef, useState, type DragEvent } from 'react';
import { queries } from '../../lib/api/queries.ts';
import { uploadScore } from '../../lib/api/songs.ts';
import type { UploadProgress } from '../../lib/api/upload.ts';
import { EdgeButton, FilledButton } from '../../ui/buttons.tsx';
import { CountedProgress, Wait } from '../../ui/notice.tsx';
import { RefusedFile } from './refused-file.tsx';
import styles from './song.module.css';

interface ScoreDropProps {
  readonly songId: string;
  /** The version that is there already; null before the first. */
  readonly version: number | null;
}

/** Takes a score: dropped here, or chosen. A refused file leaves everything as it was. */
export function ScoreDrop({ songId, version }: ScoreDropProps) {
  const cache = useQueryClient();
  const input = useRef<HTMLInputElement>(null);
  const inputId = useId();
  const [isOver, setOver] = useState(false);
  const [progress, setProgress] = useState<UploadProgress | null>(null);
  const sending = useMutation({
    mutationFn: (file: File) => uploadScore(songId, file, setProgress),
    onSuccess: () => cache.invalidateQueries({ queryKey: queries.song(songId).queryKey }),
    onSettled: () => setProgress(null),
  });
  const take = (file: File | undefined) => {
    if (file !== undefined && !sending.isPending) sending.mutate(file);
  };
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    take(event.dataTransfer.files[0]);
  };
  const over = (event: DragEvent) => {
    event.preventDefault();
    setOver(true);
  };
  const ChooseButton = version === null ? FilledButton : EdgeButton;
  return (
    <section
      className={styles.drop}
      data-over={isOver}
      data-large={version === null}
      onDrop={drop}
      onDragOver={over}
      onDragLeave={() => setOver(false)}
      aria-labelledby={`${inputId}title`}
    >
      <h2 id={`${inputId}title`}>{version === null ? 'Drop the score here' : 'Bring a newer version'}</h2>
      <p>
        {version === null
          ? 'MusicXML (.musicxml, .xml or .mxl) says most. MIDI (.mid), ABC (.abc) and text tablature (.txt, .tab) are read too. Heddle keeps the file as it is and proposes the lines at once.'
          : `This is version ${version}. Marks stay with every note that is found again.`}
      </p>
      <input
        ref={input}
        id={inputId}
        type="file"
        accept=".musicxml,.xml,.mxl,.mid,.midi,.abc,.txt,.tab"
        className="only-heard"
        tabIndex={-1}
        aria-label="Score file"
        onChange={(event) => take(event.target.files?.[0])}
      />
      {sending.isPending ? (
        <Sending progress={progress} />
      ) : (
        <ChooseButton onPress={() => input.current?.click()}>Choose a file</ChooseButton>
      )}
      {sending.isError ? <RefusedFile failure={sending.error} hasScore={version !== null} /> : null}
    </section>
  );
}

interface SendingProps {
  readonly progress: UploadProgress | null;
}

const Sending = ({ progress }: SendingProps) =>
  progress === null || progress.sentBytes < progress.totalBytes ? (
    <CountedProgress label="Sending the file" done={progress?.sentBytes ?? 0} total={progress?.totalBytes ?? 1} />
  ) : (
    <Wait>The file is there. Reading it and proposing the lines…</Wait>
  );
