import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useNavigate } from 'react-router';
import { addSong, type CourseDetail } from '../../lib/api/courses.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { paths } from '../../lib/paths.ts';
import { EdgeButton, FilledButton, WordLink } from '../../ui/buttons.tsx';
import { Slip } from '../../ui/dialog.tsx';
import { Field } from '../../ui/field.tsx';
import { Form } from '../../ui/form.tsx';
import { Notice } from '../../ui/notice.tsx';
import styles from './course.module.css';

interface SongListProps {
  readonly course: CourseDetail;
}

type Song = CourseDetail['songs'][number];

function stateOf(song: Song): string {
  if (!song.hasScore) return 'no score yet: open it and drop one in';
  if (song.looseNoteCount === null) return 'split into lines';
  if (song.looseNoteCount === 0) return 'every note is on a line';
  return song.looseNoteCount === 1 ? 'one note is on no line' : `${song.looseNoteCount} notes are on no line`;
}

/** The songs of a course, each with how far its split is. */
export function SongList({ course }: SongListProps) {
  const [isOpen, setOpen] = useState(false);
  const Add = course.songs.length === 0 ? FilledButton : EdgeButton;
  return (
    <section aria-labelledby="songs">
      <h2 id="songs">Songs</h2>
      {course.songs.length === 0 ? (
        <p className={styles.empty}>
          No song yet. Add one, then drop its score in: a MusicXML file from any notation program.
        </p>
      ) : null}
      <ul className={styles.rows}>
        {course.songs.map((song) => (
          <li key={song.id}>
            <WordLink to={paths.song(song.id)}>{song.title}</WordLink>
            <span className={styles.quiet}>
              {song.composer === '' ? '' : `${song.composer}; `}
              {stateOf(song)}
            </span>
            {song.hasScore ? (
              <WordLink to={paths.table(song.id)} aria-label={`Splitting table of ${song.title}`}>
                Splitting table
              </WordLink>
            ) : null}
          </li>
        ))}
      </ul>
      <Add onPress={() => setOpen(true)}>Add a song</Add>
      <Slip title="Add a song" isOpen={isOpen} onClose={() => setOpen(false)}>
        <SongForm courseId={course.id} />
      </Slip>
    </section>
  );
}

interface SongFormProps {
  readonly courseId: string;
}

function SongForm({ courseId }: SongFormProps) {
  const [title, setTitle] = useState('');
  const [composer, setComposer] = useState('');
  const cache = useQueryClient();
  const navigate = useNavigate();
  const adding = useMutation({
    mutationFn: () => addSong(courseId, { title, composer }),
    onSuccess: async (song) => {
      await cache.invalidateQueries({ queryKey: queries.course(courseId).queryKey });
      await navigate(paths.song(song.id));
    },
  });
  return (
    <Form onSend={() => adding.mutate()}>
      <Field label="Its name" value={title} onChange={setTitle} isRequired autoFocus maxLength={120} />
      <Field label="By whom" hint="You can leave it out." value={composer} onChange={setComposer} maxLength={120} />
      {adding.isError ? <Notice kind="trouble">{plainWords(adding.error)}</Notice> : null}
      <FilledButton type="submit" isDisabled={adding.isPending}>
        Add it
      </FilledButton>
    </Form>
  );
}
