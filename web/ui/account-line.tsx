import { useMutation } from '@tanstack/react-query';
import { signOut } from '../lib/api/people.ts';
import { useMe } from '../lib/api/use-me.ts';
import { paths } from '../lib/paths.ts';
import { WordButton } from './buttons.tsx';

/** Who is signed in, and the way out. */
export function AccountLine() {
  const me = useMe();
  const leaving = useMutation({ mutationFn: signOut, onSuccess: () => window.location.assign(paths.signIn) });
  return (
    <>
      <span>{me.name}</span>
      <WordButton onPress={() => leaving.mutate()} isDisabled={leaving.isPending}>
        Sign out
      </WordButton>
    </>
  );
}
