import type { ReactNode } from 'react';
import styles from './form.module.css';

interface FormProps {
  /** `line` puts the fields beside each other where there is room. */
  readonly flow?: 'column' | 'line';
  readonly onSend: () => void;
  readonly children: ReactNode;
}

/** Fields and the button that sends them. */
export const Form = ({ flow = 'column', onSend, children }: FormProps) => (
  <form
    className={styles.form}
    data-flow={flow}
    onSubmit={(event) => {
      event.preventDefault();
      onSend();
    }}
  >
    {children}
  </form>
);
