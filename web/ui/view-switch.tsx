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
          <svg viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true">
            <path
              d="M1 5C20 1 30 7 50 4S80 2 99 5"
              fill="none"
              stroke="light-dark(#b4444d, #d9737b)"
              strokeWidth="2.6"
            />
          </svg>
        </Button>
      ))}
    </div>
  );
}
