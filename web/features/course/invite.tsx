import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { invite } from '../../lib/api/courses.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { EdgeButton } from '../../ui/buttons.tsx';
import { CopyLine } from '../../ui/copy-line.tsx';
import { Field } from '../../ui/field.tsx';
import { Form } from '../../ui/form.tsx';
import { Notice } from '../../ui/notice.tsx';

interface InviteProps {
  readonly courseId: string;
  /** The invitations that can still be taken up; the link of one that is withdrawn is shown no more. */
  readonly openIds: readonly string[];
}

/** Invites somebody to teach along; the link is told once and is the owner's to send. */
export function Invite({ courseId, openIds }: InviteProps) {
  const [email, setEmail] = useState('');
  const cache = useQueryClient();
  const inviting = useMutation({
    mutationFn: () => invite(courseId, email),
    onSuccess: async () => {
      setEmail('');
      await cache.invalidateQueries({ queryKey: queries.people(courseId).queryKey });
    },
  });
  return (
    <>
      <Form flow="line" onSend={() => inviting.mutate()}>
        <Field
          label="Invite somebody to teach along"
          placeholder="E-mail address"
          type="email"
          value={email}
          onChange={setEmail}
          isRequired
        />
        <EdgeButton type="submit" isDisabled={inviting.isPending}>
          Invite
        </EdgeButton>
      </Form>
      {inviting.isError ? <Notice kind="trouble">{plainWords(inviting.error)}</Notice> : null}
      {inviting.data === undefined || !openIds.includes(inviting.data.id) ? null : (
        <CopyLine label={`Send this link to ${inviting.data.email}. It is shown only now.`} text={inviting.data.link} />
      )}
    </>
  );
}
