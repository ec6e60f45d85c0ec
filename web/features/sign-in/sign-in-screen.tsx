import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation, useNavigate } from 'react-router';
import { z } from 'zod';
import { signIn } from '../../lib/api/people.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { paths } from '../../lib/paths.ts';
import { FilledButton } from '../../ui/buttons.tsx';
import { Field } from '../../ui/field.tsx';
import { Form } from '../../ui/form.tsx';
import { Notice } from '../../ui/notice.tsx';
import { Doorway } from './doorway.tsx';
import styles from './sign-in.module.css';

const cameFrom = z.object({ back: z.string().startsWith('/') });

/** Signs in by address and password, and goes back to where the person wanted to be. */
export function SignInScreen() {
  const [email, setEmail] = useState('');
  const [password, setPassword] = useState('');
  const navigate = useNavigate();
  const back = cameFrom.safeParse(useLocation().state).data?.back ?? paths.shelf;
  const cache = useQueryClient();
  const entering = useMutation({
    mutationFn: () => signIn(email, password),
    onSuccess: async () => {
      await cache.invalidateQueries({ queryKey: queries.me().queryKey });
      await navigate(back, { replace: true });
    },
  });
  return (
    <Doorway title="Sign in" lead="Hear the lines inside an arrangement, one at a time.">
      <Form onSend={() => entering.mutate()}>
        <Field
          label="E-mail address"
          type="email"
          autoComplete="username"
          value={email}
          onChange={setEmail}
          isRequired
        />
        <Field
          label="Password"
          type="password"
          autoComplete="current-password"
          value={password}
          onChange={setPassword}
          isRequired
        />
        {entering.isError ? <Notice kind="trouble">{plainWords(entering.error)}</Notice> : null}
        <FilledButton type="submit" isDisabled={entering.isPending}>
          Sign in
        </FilledButton>
      </Form>
      <p className={styles.hint}>
        No password yet? Whoever runs this Heddle can print you a sign-in link; an invitation or a code from your
        teacher lets you in too.
      </p>
    </Doorway>
  );
}
