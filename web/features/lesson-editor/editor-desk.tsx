import { useQuery } from '@tanstack/react-query';
import { useMemo, useState, type ReactNode } from 'react';
import { plainPlaying, type ReleaseContent, type SongSound } from '../../../contract/index.ts';
import { queries } from '../../lib/api/queries.ts';
import type { CourseDetail } from '../../lib/api/courses.ts';
import type { LessonDetail, LessonText } from '../../lib/api/lessons.ts';
import type { Versioned } from '../../lib/api/request.ts';
import type { SongDetail } from '../../lib/api/songs.ts';
import type { ArrangedMusic } from '../../lib/arranged-music.ts';
import { paths } from '../../lib/paths.ts';
import { WordLink } from '../../ui/buttons.tsx';
import { Field } from '../../ui/field.tsx';
import { Notice } from '../../ui/notice.tsx';
import { PageFrame } from '../../ui/page-frame.tsx';
import { SaveSign } from '../../ui/save-sign.tsx';
import { ViewSwitch } from '../../ui/view-switch.tsx';
import { AddStep } from './add-step.tsx';
import styles from './editor.module.css';
import { Meanwhile } from './meanwhile.tsx';
import { previewContent } from './preview-content.ts';
import { Release } from './release.tsx';
import { StepEditor } from './step-editor.tsx';
import { useDraft } from './use-draft.ts';

interface EditorDeskProps {
  readonly lesson: Versioned<LessonDetail>;
  readonly song: SongDetail;
  readonly music: ArrangedMusic;
  readonly course: CourseDetail;
  readonly preview: (content: ReleaseContent) => ReactNode;
}

const faces = [
  { view: 'write', text: 'Write' },
  { view: 'preview', text: 'As a student sees it' },
] as const;

const plainSound: SongSound = { playing: plainPlaying, mixes: [] };

/** The lesson as it would be released now, and the sound that is kept for its song. */
function useContent(text: LessonText, song: SongDetail, music: ArrangedMusic) {
  const songSound = useQuery(queries.songSound(song.id)).data?.body ?? plainSound;
  const { playing } = songSound;
  const content = useMemo(() => previewContent(text, song, music, playing), [text, song, music, playing]);
  return { content, songSound };
}

/** A lesson on the desk: written or looked at as a student, and released. */
export function EditorDesk({ lesson, song, music, course, preview }: EditorDeskProps) {
  const { keeper, draft } = useDraft(lesson);
  const [face, setFace] = useState<'write' | 'preview'>('write');
  const { content, songSound } = useContent(draft.text, song, music);
  const { text } = draft;
  const place = (
    <>
      <WordLink to={paths.course(course.id)}>{course.title}</WordLink>
      <WordLink to={paths.song(song.id)}>{song.title}</WordLink>
    </>
  );
  return (
    <PageFrame title={text.title} place={place} end={<SaveSign state={draft.save} />}>
      <div className={styles.desk}>
        {face === 'write' ? <h1 className="only-heard">Writing “{text.title}”</h1> : null}
        <div className={styles.topLine}>
          <ViewSwitch label="Write or preview" views={faces} chosen={face} onChoose={setFace} />
          <Release lesson={lesson.body} keeper={keeper} text={text} courseId={course.id} />
        </div>
        {draft.trouble === null ? null : (
          <Notice kind="trouble">Not saved yet: {draft.trouble} What you wrote is kept in this browser.</Notice>
        )}
        {draft.theirs === null ? null : <Meanwhile theirs={draft.theirs} onResolve={keeper.resolve} />}
        {face === 'preview' ? (
          preview(content)
        ) : (
          <>
            <div className={styles.titleField}>
              <Field
                label="Title"
                value={text.title}
                onChange={(title) => keeper.edit((known) => ({ ...known, title }))}
                maxLength={120}
                isRequired
              />
            </div>
            {text.steps.map((step, index) => (
              <StepEditor
                key={step.id}
                step={step}
                index={index}
                count={text.steps.length}
                music={music}
                songSound={songSound}
                edit={keeper.edit}
              />
            ))}
            {text.steps.length === 0 ? (
              <p className={styles.quiet}>
                A lesson is text and excerpts to listen to, in any order. Begin with a sentence about what is to be
                heard.
              </p>
            ) : null}
            <AddStep music={music} edit={keeper.edit} />
          </>
        )}
      </div>
    </PageFrame>
  );
}
