import type { LessonStep, SongSound } from '../../../contract/index.ts';
import type { ArrangedMusic } from '../../lib/arranged-music.ts';
import { WordButton } from '../../ui/buttons.tsx';
import styles from './editor.module.css';
import { ListenStepEditor } from './listen-step-editor.tsx';
import { moveStep, removeStep, type Edit } from './step-edits.ts';
import { TextStepEditor } from './text-step-editor.tsx';

interface StepEditorProps {
  readonly step: LessonStep;
  readonly index: number;
  readonly count: number;
  readonly music: ArrangedMusic;
  readonly songSound: SongSound;
  readonly edit: Edit;
}

/** One step of a lesson: its content, and the words to move it or take it out. */
export function StepEditor({ step, index, count, music, songSound, edit }: StepEditorProps) {
  const name = step.kind === 'text' ? `Text, step ${index + 1}` : `Listen, step ${index + 1}`;
  return (
    <section className={styles.step} aria-label={name}>
      <header className={styles.stepHead}>
        <span className={styles.kind}>{step.kind === 'text' ? 'Text' : 'Hear and see'}</span>
        <span className={styles.deeds}>
          <WordButton
            isDisabled={index === 0}
            onPress={() => edit(moveStep(step.id, -1))}
            aria-label={`Move ${name} up`}
          >
            Up
          </WordButton>
          <WordButton
            isDisabled={index === count - 1}
            onPress={() => edit(moveStep(step.id, 1))}
            aria-label={`Move ${name} down`}
          >
            Down
          </WordButton>
          <WordButton onPress={() => edit(removeStep(step.id))} aria-label={`Take out ${name}`}>
            Take out
          </WordButton>
        </span>
      </header>
      {step.kind === 'text' ? (
        <TextStepEditor step={step} edit={edit} />
      ) : (
        <ListenStepEditor step={step} music={music} songSound={songSound} edit={edit} />
      )}
    </section>
  );
}
