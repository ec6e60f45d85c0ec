import type { ReactNode } from 'react';
import { Dialog, DialogTrigger, Popover } from 'react-aria-components';
import { WordButton, WordToggle } from './buttons.tsx';
import styles from './word-choice.module.css';

/** One of the words that can be chosen. */
export interface WordOption<Value> {
  readonly value: Value;
  readonly text: string;
}

interface WordChoiceProps<Value> {
  /** What is chosen, in one or two words. */
  readonly label: string;
  readonly value: Value;
  readonly options: readonly WordOption<Value>[];
  readonly onChoose: (value: Value) => void;
  /** What stands for the choice while it is closed. */
  readonly children: ReactNode;
}

/** A word that opens the few others that could stand in its place. */
export const WordChoice = <Value,>({ label, value, options, onChoose, children }: WordChoiceProps<Value>) => (
  <DialogTrigger>
    <WordButton>
      <span className="only-heard">{label}: </span>
      {children}
    </WordButton>
    <Popover placement="top" className={styles.popover ?? ''}>
      <Dialog aria-label={label} className={styles.body ?? ''}>
        {({ close }) => (
          <>
            <p className={styles.label}>{label}</p>
            {options.map((option) => (
              <WordToggle
                key={option.text}
                isSelected={option.value === value}
                onChange={() => {
                  onChoose(option.value);
                  close();
                }}
              >
                {option.text}
              </WordToggle>
            ))}
          </>
        )}
      </Dialog>
    </Popover>
  </DialogTrigger>
);
