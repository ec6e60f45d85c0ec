import { useQuery } from '@tanstack/react-query';
import { useEffect, useMemo, type ReactNode } from 'react';
import { useParams } from 'react-router';
import type { ReleaseContent } from '../../../contract/index.ts';
import { splitFromSnapshot } from '../../../music/index.ts';
import { queries } from '../../lib/api/queries.ts';
import { useMe } from '../../lib/api/use-me.ts';
import { arrangementIn } from '../../lib/arranged-music.ts';
import { keepLastPlace } from '../../lib/last-place.ts';
import { paths } from '../../lib/paths.ts';
import { Wait } from '../../ui/notice.tsx';
import { PageFrame } from '../../ui/page-frame.tsx';
import { EditorDesk } from './editor-desk.tsx';

interface LessonEditorScreenProps {
  /** Shows a lesson as a student sees it. */
  readonly preview: (content: ReleaseContent) => ReactNode;
}

/** Everything that a lesson is written with; undefined until all of it is there. */
function useLessonMaterial(lessonId: string) {
  const { data: lesson } = useQuery(queries.lesson(lessonId));
  const songId = lesson?.body.songId ?? '';
  const isKnown = lesson !== undefined;
  const { data: song } = useQuery({ ...queries.song(songId), enabled: isKnown });
  const { data: musicXml } = useQuery({ ...queries.scoreText(songId), enabled: isKnown });
  const { data: snapshot } = useQuery({ ...queries.split(songId), enabled: isKnown });
  const { data: course } = useQuery({ ...queries.course(lesson?.body.courseId ?? ''), enabled: isKnown });
  const parts = song?.arrangementParts;
  const music = useMemo(() => {
    if (musicXml === undefined || snapshot === undefined || parts === undefined) return undefined;
    return { musicXml, score: arrangementIn(musicXml, parts), split: splitFromSnapshot(snapshot) };
  }, [musicXml, snapshot, parts]);
  return lesson === undefined || song === undefined || music === undefined || course === undefined
    ? undefined
    : { lesson, song, music, course };
}

/** Writes a lesson: title, text, excerpts with their listening paths; preview and release. */
export function LessonEditorScreen({ preview }: LessonEditorScreenProps) {
  const { lessonId = '' } = useParams();
  const me = useMe();
  const material = useLessonMaterial(lessonId);
  const title = material?.lesson.body.title;
  useEffect(() => {
    if (title !== undefined) keepLastPlace(me.id, { path: paths.lessonEditor(lessonId), title });
  }, [me.id, lessonId, title]);
  if (material === undefined) {
    return (
      <PageFrame title="A lesson">
        <Wait>Fetching the lesson and its score…</Wait>
      </PageFrame>
    );
  }
  return <EditorDesk key={lessonId} {...material} preview={preview} />;
}
