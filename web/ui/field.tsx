import { FieldError, Input, Label, Text, TextArea, TextField, type TextFieldProps } from 'react-aria-components';
import styles from './field.module.css';

interface FieldProps extends TextFieldProps {
  readonly label: string;
  readonly hint?: string;
  readonly placeholder?: string;
  /** The name is told to screen readers only, where the place says it to everybody else. */
  readonly isLabelHidden?: boolean;
  /** Lines of text; one line without it. */
  readonly rows?: number;
}

/** One thing to write, with its name above it and, where it helps, a hint below. */
export function Field({ label, hint, placeholder, rows, isLabelHidden = false, ...field }: FieldProps) {
  return (
    <TextField {...field} className={styles.field ?? ''}>
      <Label className={isLabelHidden ? 'only-heard' : (styles.label ?? '')}>{label}</Label>
      {rows === undefined ? (
        <Input className={styles.input ?? ''} {...(placeholder === undefined ? {} : { placeholder })} />
      ) : (
        <TextArea className={styles.input ?? ''} rows={rows} {...(placeholder === undefined ? {} : { placeholder })} />
      )}
      {hint === undefined ? null : (
        <Text slot="description" className={styles.hint ?? ''}>
          {hint}
        </Text>
      )}
      <FieldError className={styles.error ?? ''} />
    </TextField>
  );
}
