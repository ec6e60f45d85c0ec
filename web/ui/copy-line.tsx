import { useState } from 'react';
import { WordButton } from './buttons.tsx';
import styles from './copy-line.module.css';

interface CopyLineProps {
  readonly label: string;
  readonly text: string;
}

/** Something to take elsewhere, with a button that copies it. */
export function CopyLine({ label, text }: CopyLineProps) {
  const [state, setState] = useState<'fresh' | 'copied' | 'refused'>('fresh');
  const copy = () =>
    void navigator.clipboard.writeText(text).then(
      () => setState('copied'),
      () => setState('refused'),
    );
  return (
    <div className={styles.line} role="status">
      <p>{label}</p>
      <code className={styles.text}>{text}</code>
      <WordButton onPress={copy}>{state === 'copied' ? 'Copied' : 'Copy'}</WordButton>
      {state === 'refused' ? (
        <p>The browser does not let the page copy. Mark the text above and copy it by hand.</p>
      ) : null}
    </div>
  );
}
