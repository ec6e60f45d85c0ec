import { EdgeButton, WordButton } from '../../ui/buttons.tsx';
import { Notice } from '../../ui/notice.tsx';
import type { Resolution, VersionedText } from './draft-keeper.ts';
import styles from './editor.module.css';

interface MeanwhileProps {
  readonly theirs: VersionedText;
  readonly onResolve: (resolution: Resolution) => void;
}

/** Told when a colleague saved the lesson meanwhile; nothing is lost until somebody chooses. */
export const Meanwhile = ({ theirs, onResolve }: MeanwhileProps) => (
  <Notice kind="trouble">
    <p>
      A colleague saved this lesson meanwhile: “{theirs.text.title}”, {theirs.text.steps.length}{' '}
      {theirs.text.steps.length === 1 ? 'step' : 'steps'}. Yours is what you see here, kept in this browser.
    </p>
    <div className={styles.deeds}>
      <EdgeButton onPress={() => onResolve('both')}>Keep both: theirs, then my changed steps</EdgeButton>
      <WordButton onPress={() => onResolve('mine')}>Keep mine only</WordButton>
      <WordButton onPress={() => onResolve('theirs')}>Take theirs only</WordButton>
    </div>
  </Notice>
);
