import { useMutation } from '@tanstack/react-query';
import { useState, type ReactNode } from 'react';
import { plainWords } from '../lib/api/problem.ts';
import { EdgeButton, FilledButton, WordButton } from './buttons.tsx';
import { Slip } from './dialog.tsx';
import styles from './form.module.css';
import { Notice } from './notice.tsx';

interface AskedDeedProps {
  /** The word that begins it, and the same said whole for those who only hear it. */
  readonly word: string;
  readonly label: string;
  readonly question: string;
  /** The answer that does it. */
  readonly yes: string;
  readonly deed: () => Promise<unknown>;
  /** What it would mean. */
  readonly children: ReactNode;
}

/** Something that cannot be taken back: a word that asks first and says what will be gone and what stays. */
export function AskedDeed({ word, label, question, yes, deed, children }: AskedDeedProps) {
  const [isOpen, setOpen] = useState(false);
  const doing = useMutation({ mutationFn: deed, onSuccess: () => setOpen(false) });
  const close = () => {
    setOpen(false);
    doing.reset();
  };
  return (
    <>
      <WordButton onPress={() => setOpen(true)} aria-label={label}>
        {word}
      </WordButton>
      <Slip title={question} isOpen={isOpen} onClose={close}>
        <p>{children}</p>
        {doing.isError ? <Notice kind="trouble">{plainWords(doing.error)}</Notice> : null}
        <div className={styles.answers}>
          <FilledButton onPress={() => doing.mutate()} isDisabled={doing.isPending}>
            {yes}
          </FilledButton>
          <EdgeButton onPress={close}>No, go back</EdgeButton>
        </div>
      </Slip>
    </>
  );
}
