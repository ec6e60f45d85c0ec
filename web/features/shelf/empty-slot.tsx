import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useNavigate } from 'react-router';
import { startCourse } from '../../lib/api/courses.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { paths } from '../../lib/paths.ts';
import { EdgeButton, FilledButton } from '../../ui/buttons.tsx';
import { Slip } from '../../ui/dialog.tsx';
import { Field } from '../../ui/field.tsx';
import { Form } from '../../ui/form.tsx';
import { Notice } from '../../ui/notice.tsx';
import { CodeForm } from './code-form.tsx';
import styles from './shelf.module.css';

interface EmptySlotProps {
  readonly hasCourses: boolean;
}

/** Room on the shelf: start a course, or join one by a code. */
export function EmptySlot({ hasCourses }: EmptySlotProps) {
  const [isOpen, setOpen] = useState(false);
  const [title, setTitle] = useState('');
  const [summary, setSummary] = useState('');
  const navigate = useNavigate();
  const cache = useQueryClient();
  const starting = useMutation({
    mutationFn: () => startCourse({ title, summary }),
    onSuccess: async (course) => {
      await cache.invalidateQueries({ queryKey: queries.shelf().queryKey });
      await navigate(paths.course(course.id));
    },
  });
  return (
    <li className={styles.place}>
      <div className={styles.slot}>
        <h2>{hasCourses ? 'One more course' : 'A course of your own'}</h2>
        <p>A song goes in first, lessons grow out of it, and then you let people in.</p>
        <EdgeButton onPress={() => setOpen(true)}>Begin a course</EdgeButton>
        <CodeForm />
      </div>
      <Slip title="Begin a course" isOpen={isOpen} onClose={() => setOpen(false)}>
        <Form onSend={() => starting.mutate()}>
          <Field label="Its name" value={title} onChange={setTitle} isRequired autoFocus maxLength={120} />
          <Field
            label="What it is about"
            hint="One sentence for the people in it. You can leave it out."
            value={summary}
            onChange={setSummary}
            rows={2}
            maxLength={500}
          />
          {starting.isError ? <Notice kind="trouble">{plainWords(starting.error)}</Notice> : null}
          <FilledButton type="submit" isDisabled={starting.isPending}>
            Begin it
          </FilledButton>
        </Form>
      </Slip>
    </li>
  );
}
