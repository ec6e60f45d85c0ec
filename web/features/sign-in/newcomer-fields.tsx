import { Field } from '../../ui/field.tsx';

/** Who somebody new is. */
export interface Newcomer {
  readonly name: string;
  readonly password: string;
}

interface NewcomerFieldsProps {
  readonly value: Newcomer;
  readonly onChange: (value: Newcomer) => void;
}

/** What somebody new is called, and a password to come back with. */
export const NewcomerFields = ({ value, onChange }: NewcomerFieldsProps) => (
  <>
    <Field
      label="Your name"
      hint="As the others in the course will see it."
      autoComplete="name"
      value={value.name}
      onChange={(name) => onChange({ ...value, name })}
      isRequired
      maxLength={80}
    />
    <Field
      label="A password"
      hint="Ten characters or more; three or four words do well."
      type="password"
      autoComplete="new-password"
      value={value.password}
      onChange={(password) => onChange({ ...value, password })}
      isRequired
      minLength={10}
      maxLength={128}
    />
  </>
);
