import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { plainWords } from '../lib/api/problem.ts';
import { FilledButton, WordButton } from './buttons.tsx';
import { Slip } from './dialog.tsx';
import { Field } from './field.tsx';
import { Form } from './form.tsx';
import { Notice } from './notice.tsx';

/** A title and the line under it. */
export interface Naming {
  readonly title: string;
  readonly second: string;
}

interface RenamingProps {
  readonly word: string;
  readonly known: Naming;
  readonly second: {
    readonly label: string;
    readonly hint: string;
    readonly maxLength: number;
    readonly rows?: number;
  };
  readonly keep: (naming: Naming) => Promise<unknown>;
}

/** A word under a title; behind it the slip that changes the title and the line under it. */
export function Renaming(props: RenamingProps) {
  const [isOpen, setOpen] = useState(false);
  const close = () => setOpen(false);
  return (
    <>
      <WordButton onPress={() => setOpen(true)}>{props.word}</WordButton>
      <Slip title={props.word} isOpen={isOpen} onClose={close}>
        <RenamingForm {...props} onDone={close} />
      </Slip>
    </>
  );
}

function RenamingForm({ known, second, keep, onDone }: RenamingProps & { readonly onDone: () => void }) {
  const [naming, setNaming] = useState(known);
  const keeping = useMutation({ mutationFn: () => keep(naming), onSuccess: onDone });
  return (
    <Form onSend={() => keeping.mutate()}>
      <Field
        label="Its name"
        value={naming.title}
        onChange={(title) => setNaming({ ...naming, title })}
        maxLength={120}
        isRequired
        autoFocus
      />
      <Field {...second} value={naming.second} onChange={(words) => setNaming({ ...naming, second: words })} />
      {keeping.isError ? <Notice kind="trouble">{plainWords(keeping.error)}</Notice> : null}
      <FilledButton type="submit" isDisabled={keeping.isPending}>
        Keep it
      </FilledButton>
    </Form>
  );
}
