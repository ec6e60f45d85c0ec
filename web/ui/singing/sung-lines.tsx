import { ToggleButton } from 'react-aria-components';
import type { Singing } from '../../playback/use-singing.ts';
import { Eye } from '../eye.tsx';
import styles from './singing.module.css';

/** The lines that can be sung: one press lets one be hummed, another press ends it. */
export const SungLines = ({ singing: { lines, line: sung, sing } }: { readonly singing: Singing }) => (
  <div className={styles.group}>
    <p className={styles.label}>
      {lines.length === 0
        ? 'Nothing in these bars has a pitch to sing.'
        : 'Press a line: it is hummed, and you sing with it.'}
    </p>
    <div className={styles.lines} role="group" aria-label="The line to sing">
      {lines.map((line) => (
        <ToggleButton
          key={line.id}
          className={styles.line ?? ''}
          isSelected={sung?.id === line.id}
          onChange={(isSung) => sing(isSung ? line.id : null)}
        >
          <Eye line={line} size={30} />
          <span>{line.name}</span>
        </ToggleButton>
      ))}
    </div>
  </div>
);
