import { Field } from '../field.tsx';

interface MixNameProps {
  readonly label: string;
  readonly value: string;
  /** Whether another mix has the name. */
  readonly isTaken: boolean;
  readonly isLabelHidden?: boolean;
  readonly autoFocus?: boolean;
  readonly onChange: (name: string) => void;
  readonly onBlur?: () => void;
}

/** The name of a mix; says so where another has it. */
export const MixName = ({ isTaken, ...field }: MixNameProps) => (
  <Field
    {...field}
    maxLength={60}
    isRequired
    isInvalid={isTaken}
    {...(isTaken ? { hint: 'Another mix has this name. Choose a different one.' } : {})}
  />
);
