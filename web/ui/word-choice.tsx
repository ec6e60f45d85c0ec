import type { ReactNode } from 'react';
import { DialogTrigger } from 'react-aria-components';
import { WordButton, WordToggle } from './buttons.tsx';
import { HangingSlip } from './hanging-slip.tsx';

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
    <HangingSlip title={label}>
      {({ close }) => (
        <>
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
    </HangingSlip>
  </DialogTrigger>
);
