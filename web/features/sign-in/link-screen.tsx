import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useEffect } from 'react';
import { useNavigate, useParams } from 'react-router';
import { signInByLink } from '../../lib/api/people.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { paths } from '../../lib/paths.ts';
import { FilledLink } from '../../ui/buttons.tsx';
import { Notice, Wait } from '../../ui/notice.tsx';
import { Doorway } from './doorway.tsx';

/** Lets in by a one-time link. */
export function LinkScreen() {
  const { token = '' } = useParams();
  const navigate = useNavigate();
  const cache = useQueryClient();
  const entering = useQuery({
    queryKey: ['sign-in-link', token],
    queryFn: async () => {
      await signInByLink(token);
      return true;
    },
    staleTime: Infinity,
    retry: false,
    throwOnError: false,
  });
  const { isSuccess } = entering;
  useEffect(() => {
    if (!isSuccess) return;
    void cache
      .invalidateQueries({ queryKey: queries.me().queryKey })
      .then(() => navigate(paths.shelf, { replace: true }));
  }, [isSuccess, cache, navigate]);
  return (
    <Doorway title="Come in" lead="This link works once, and not for long.">
      {entering.isError ? (
        <>
          <Notice kind="trouble">{plainWords(entering.error)}</Notice>
          <FilledLink to={paths.signIn}>Sign in with a password</FilledLink>
        </>
      ) : (
        <Wait>Opening the door…</Wait>
      )}
    </Doorway>
  );
}
