import { useState } from 'react';
import { useNavigate } from 'react-router';
import { paths } from '../../lib/paths.ts';
import { WordButton } from '../../ui/buttons.tsx';
import { Field } from '../../ui/field.tsx';
import { Form } from '../../ui/form.tsx';

/** Joins a course by the code that its teacher gave. */
export function CodeForm() {
  const [isOpen, setOpen] = useState(false);
  const [code, setCode] = useState('');
  const navigate = useNavigate();
  if (!isOpen) return <WordButton onPress={() => setOpen(true)}>I have a code</WordButton>;
  return (
    <Form flow="line" onSend={() => void navigate(paths.enrolment(code.trim()))}>
      <Field
        label="The code from your teacher"
        value={code}
        onChange={setCode}
        isRequired
        autoFocus
        minLength={4}
        maxLength={40}
      />
      <WordButton type="submit">Join</WordButton>
    </Form>
  );
}
