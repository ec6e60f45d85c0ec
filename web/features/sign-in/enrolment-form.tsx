import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useNavigate } from 'react-router';
import { enrol, type Me } from '../../lib/api/people.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { paths } from '../../lib/paths.ts';
import { FilledButton } from '../../ui/buttons.tsx';
import { Field } from '../../ui/field.tsx';
import { Form } from '../../ui/form.tsx';
import { Notice } from '../../ui/notice.tsx';
import { NewcomerOrMe } from './newcomer-or-me.tsx';

interface EnrolmentFormProps {
  readonly code: string;
  readonly me: Me | null;
}

/** Joins as whoever is signed in, or as somebody new. */
export function EnrolmentForm({ code, me }: EnrolmentFormProps) {
  const [newcomer, setNewcomer] = useState({ name: '', password: '' });
  const [email, setEmail] = useState('');
  const navigate = useNavigate();
  const cache = useQueryClient();
  const joining = useMutation({
    mutationFn: () => enrol(code, me === null ? { ...newcomer, email } : null),
    onSuccess: async ({ courseId }) => {
      await cache.invalidateQueries({ refetchType: 'none' });
      await navigate(paths.course(courseId), { replace: true });
    },
  });
  return (
    <Form onSend={() => joining.mutate()}>
      {me === null ? (
        <Field
          label="E-mail address"
          type="email"
          autoComplete="username"
          value={email}
          onChange={setEmail}
          isRequired
        />
      ) : null}
      <NewcomerOrMe me={me} newcomer={newcomer} onChange={setNewcomer} />
      {joining.isError ? <Notice kind="trouble">{plainWords(joining.error)}</Notice> : null}
      <FilledButton type="submit" isDisabled={joining.isPending}>
        Join the course
      </FilledButton>
    </Form>
  );
}
