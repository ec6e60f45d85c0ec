import type { LessonStep } from '../../../contract/index.ts';
import { Field } from '../../ui/field.tsx';
import { Prose } from '../../ui/prose.tsx';
import styles from './editor.module.css';
import { replaceStep, type Edit } from './step-edits.ts';

interface TextStepEditorProps {
  readonly step: Extract<LessonStep, { kind: 'text' }>;
  readonly edit: Edit;
}

/** Text in Markdown, and beside it how it reads. */
export const TextStepEditor = ({ step, edit }: TextStepEditorProps) => (
  <div className={styles.sides}>
    <Field
      label="Text"
      hint="Markdown: *stress*, **weight**, - lists, ## headings."
      rows={8}
      value={step.text}
      onChange={(text) => edit(replaceStep({ ...step, text }))}
      maxLength={20_000}
    />
    <div className={styles.reads} aria-label="How it reads" role="group">
      {step.text.trim() === '' ? (
        <p className={styles.quiet}>How it reads will stand here.</p>
      ) : (
        <Prose text={step.text} />
      )}
    </div>
  </div>
);
