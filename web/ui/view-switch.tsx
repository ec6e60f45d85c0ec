import { Button } from 'react-aria-components';
import styles from './view-switch.module.css';

interface ViewSwitchProps<View extends string> {
  readonly label: string;
  readonly views: readonly { readonly view: View; readonly text: string }[];
  readonly chosen: View;
  readonly onChoose: (view: View) => void;
}

/** The ways of looking, as words; a thread runs under the chosen one. */
export function ViewSwitch<View extends string>({ label, views, chosen, onChoose }: ViewSwitchProps<View>) {
  return (
    <div className={styles.views} role="group" aria-label={label}>
      {views.map(({ view, text }) => (
        <Button key={view} aria-pressed={view === chosen} className={styles.view ?? ''} onPress={() => onChoose(view)}>
          {text}
          <svg viewBox="0 0 120 10" preserveAspectRatio="none" aria-hidden="true">
            <path d="M2 6Q17 1 32 5T62 5T92 5T118 4" fill="none" stroke="var(--madder)" strokeWidth="2.4" />
          </svg>
        </Button>
      ))}
    </div>
  );
}
