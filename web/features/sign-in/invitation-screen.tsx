import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useNavigate, useParams } from 'react-router';
import { acceptInvitation, fetchInvitation } from '../../lib/api/people.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { paths } from '../../lib/paths.ts';
import { FilledButton, FilledLink } from '../../ui/buttons.tsx';
import { Form } from '../../ui/form.tsx';
import { Notice, Wait } from '../../ui/notice.tsx';
import { Doorway } from './doorway.tsx';
import { NewcomerOrMe } from './newcomer-or-me.tsx';

/** Takes up an invitation to teach: as oneself when signed in, else with a name and a password. */
export function InvitationScreen() {
  const { token = '' } = useParams();
  const { data: me } = useQuery(queries.me());
  const invitation = useQuery({
    queryKey: ['invitation', token],
    queryFn: () => fetchInvitation(token),
    throwOnError: false,
  });
  const [newcomer, setNewcomer] = useState({ name: '', password: '' });
  const navigate = useNavigate();
  const cache = useQueryClient();
  const accepting = useMutation({
    mutationFn: () => acceptInvitation(token, me === null ? newcomer : null),
    onSuccess: async ({ courseId }) => {
      await cache.invalidateQueries({ refetchType: 'none' });
      await navigate(paths.course(courseId), { replace: true });
    },
  });
  if (invitation.isError) {
    return (
      <Doorway title="This invitation does not open" lead="Ask whoever sent it for a new one.">
        <Notice kind="trouble">{plainWords(invitation.error)}</Notice>
      </Doorway>
    );
  }
  if (invitation.data === undefined || me === undefined)
    return (
      <Doorway title="An invitation" lead="Looking what it is for…">
        {<Wait>One moment…</Wait>}
      </Doorway>
    );
  const { courseTitle, invitedByName, email, personExists } = invitation.data;
  return (
    <Doorway title={courseTitle} lead={`${invitedByName} invites you to teach this course together.`}>
      {me === null && personExists ? (
        <>
          <p>You have been here before as {email}. Sign in, and open this invitation again.</p>
          <FilledLink to={paths.signIn} state={{ back: paths.invitation(token) }}>
            Sign in
          </FilledLink>
        </>
      ) : (
        <Form onSend={() => accepting.mutate()}>
          <NewcomerOrMe me={me} newcomer={newcomer} onChange={setNewcomer} />
          {accepting.isError ? <Notice kind="trouble">{plainWords(accepting.error)}</Notice> : null}
          <FilledButton type="submit" isDisabled={accepting.isPending}>
            Join as a teacher
          </FilledButton>
        </Form>
      )}
    </Doorway>
  );
}
