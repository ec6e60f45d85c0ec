import { useQuery } from '@tanstack/react-query';
import { Navigate, Outlet, useLocation } from 'react-router';
import { queries } from '../lib/api/queries.ts';
import { paths } from '../lib/paths.ts';
import { Wait } from '../ui/notice.tsx';
import { PageFrame } from '../ui/page-frame.tsx';

/** Lets the signed-in through and sends the others to sign in, then back here. */
export function SignedInGate() {
  const { data: me } = useQuery(queries.me());
  const { pathname } = useLocation();
  if (me === undefined) {
    return (
      <PageFrame title="Heddle">
        <Wait>Looking who you are…</Wait>
      </PageFrame>
    );
  }
  if (me === null) return <Navigate to={paths.signIn} state={{ back: pathname }} replace />;
  return <Outlet />;
}
