import type { ReactNode } from 'react';
import styles from './choice.module.css';

interface CheckProps {
  readonly isChosen: boolean;
  readonly onChange: (isChosen: boolean) => void;
  readonly children: ReactNode;
}

/** A thing that is chosen or not: a small eye, threaded when it is. */
export const Check = ({ isChosen, onChange, children }: CheckProps) => (
  <label className={styles.check}>
    <input type="checkbox" checked={isChosen} onChange={(event) => onChange(event.target.checked)} />
    <span>{children}</span>
  </label>
);

interface PickProps<Value extends string> {
  readonly label: string;
  readonly value: Value;
  readonly options: readonly { readonly value: Value; readonly text: string }[];
  readonly onPick: (value: Value) => void;
}

/** One of several words, in the browser's own list. */
export function Pick<Value extends string>({ label, value, options, onPick }: PickProps<Value>) {
  const pick = (text: string) => {
    const found = options.find((option) => option.value === text);
    if (found !== undefined) onPick(found.value);
  };
  return (
    <label className={styles.pick}>
      <span>{label}</span>
      <select value={value} onChange={(event) => pick(event.target.value)}>
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.text}
          </option>
        ))}
      </select>
    </label>
  );
}
