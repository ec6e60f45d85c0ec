import type { ArrangedMusic } from '../../lib/arranged-music.ts';
import { EdgeButton } from '../../ui/buttons.tsx';
import styles from './editor.module.css';
import { firstBars } from './excerpt-edit.ts';
import { addStep, type Edit } from './step-edits.ts';

interface AddStepProps {
  readonly music: ArrangedMusic;
  readonly edit: Edit;
}

/** Adds a step at the end of the lesson. */
export function AddStep({ music, edit }: AddStepProps) {
  const addListening = () => {
    const excerpt = firstBars(music.score);
    if (excerpt === null) return;
    edit(
      addStep({
        kind: 'listen',
        id: crypto.randomUUID(),
        title: 'Hear and see',
        excerpt,
        tempoPercent: 100,
        path: [],
        mixes: [],
      }),
    );
  };
  return (
    <div className={styles.deeds}>
      <EdgeButton onPress={() => edit(addStep({ kind: 'text', id: crypto.randomUUID(), text: '' }))}>
        Add text
      </EdgeButton>
      <EdgeButton onPress={addListening}>Add an excerpt to listen to</EdgeButton>
    </div>
  );
}
