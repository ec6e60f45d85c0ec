import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { setPassword } from '../../lib/api/people.ts';
import { plainWords } from '../../lib/api/problem.ts';
import { queries } from '../../lib/api/queries.ts';
import { FilledButton, WordButton } from '../../ui/buttons.tsx';
import { Slip } from '../../ui/dialog.tsx';
import { Field } from '../../ui/field.tsx';
import { Form } from '../../ui/form.tsx';
import { Notice } from '../../ui/notice.tsx';

/** Lets somebody who came by a link set a password to come back with. */
export function PasswordSlip() {
  const [isOpen, setOpen] = useState(false);
  const [password, setText] = useState('');
  const cache = useQueryClient();
  const setting = useMutation({
    mutationFn: () => setPassword(password),
    onSuccess: () => cache.invalidateQueries({ queryKey: queries.me().queryKey }),
  });
  return (
    <p>
      You came in by a link. <WordButton onPress={() => setOpen(true)}>Set a password</WordButton>
      <Slip title="A password to come back with" isOpen={isOpen} onClose={() => setOpen(false)}>
        <Form onSend={() => setting.mutate()}>
          <Field
            label="Password"
            hint="Ten characters or more; three or four words do well."
            type="password"
            autoComplete="new-password"
            value={password}
            onChange={setText}
            isRequired
            autoFocus
            minLength={10}
            maxLength={128}
          />
          {setting.isError ? <Notice kind="trouble">{plainWords(setting.error)}</Notice> : null}
          <FilledButton type="submit" isDisabled={setting.isPending}>
            Keep it
          </FilledButton>
        </Form>
      </Slip>
    </p>
  );
}
