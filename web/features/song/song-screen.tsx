import { useQuery } from '@tanstack/react-query';
import { useEffect } from 'react';
import { useParams } from 'react-router';
import { queries } from '../../lib/api/queries.ts';
import { useMe } from '../../lib/api/use-me.ts';
import { keepLastPlace } from '../../lib/last-place.ts';
import { paths } from '../../lib/paths.ts';
import { AccountLine } from '../../ui/account-line.tsx';
import type { ExportSlot } from '../../ui/export-slot.ts';
import { WordLink } from '../../ui/buttons.tsx';
import { Wait } from '../../ui/notice.tsx';
import { PageFrame } from '../../ui/page-frame.tsx';
import { ArrangementParts } from './arrangement-parts.tsx';
import { Facts } from './facts.tsx';
import { HowRead } from './how-read.tsx';
import { ImportReport } from './import-report.tsx';
import { LessonsOfSong } from './lessons-of-song.tsx';
import { RenameSong } from './rename-song.tsx';
import { ScoreDrop } from './score-drop.tsx';
import { SplitState } from './split-state.tsx';
import { TakeOut } from './take-out.tsx';
import styles from './song.module.css';

interface SongScreenProps {
  readonly ExportSlip: ExportSlot;
}

/** A song: its score, what was read from it, how far its split is. */
export function SongScreen({ ExportSlip }: SongScreenProps) {
  const { songId = '' } = useParams();
  const me = useMe();
  const { data: song } = useQuery(queries.song(songId));
  const { data: course } = useQuery({ ...queries.course(song?.courseId ?? ''), enabled: song !== undefined });
  const title = song?.title;
  useEffect(() => {
    if (title !== undefined) keepLastPlace(me.id, { path: paths.song(songId), title });
  }, [me.id, songId, title]);
  if (song === undefined) {
    return (
      <PageFrame title="A song">
        <Wait>Fetching the song…</Wait>
      </PageFrame>
    );
  }
  const place = course === undefined ? null : <WordLink to={paths.course(course.id)}>{course.title}</WordLink>;
  return (
    <PageFrame title={song.title} place={place} end={<AccountLine />}>
      <h1>{song.title}</h1>
      {song.composer === '' ? null : <p className={styles.composer}>by {song.composer}</p>}
      <RenameSong song={song} />
      {song.score === null ? (
        <ScoreDrop songId={songId} version={null} />
      ) : (
        <div className={styles.halves}>
          <div className={styles.half}>
            <SplitState song={song} />
            {course === undefined ? null : <LessonsOfSong songId={songId} course={course} />}
            <TakeOut songId={songId} ExportSlip={ExportSlip} />
            <ArrangementParts key={song.arrangementParts?.join() ?? ''} song={song} facts={song.score.facts} />
          </div>
          <div className={styles.half}>
            <Facts score={song.score} />
            <ImportReport issues={song.score.issues} />
            <HowRead song={song} score={song.score} />
            <ScoreDrop songId={songId} version={song.score.version} />
          </div>
        </div>
      )}
    </PageFrame>
  );
}
