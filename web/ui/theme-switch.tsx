import { useSyncExternalStore } from 'react';
import { Pick } from './choice.tsx';
import { chooseTheme, chosenTheme, subscribeTheme, type Theme } from './theme.ts';

const options: readonly { readonly value: Theme; readonly text: string }[] = [
  { value: 'machine', text: 'as this machine has it' },
  { value: 'light', text: 'daylight' },
  { value: 'dark', text: 'lamplight' },
];

/** Chooses how light the page is; the score stays on light paper. */
export function ThemeSwitch() {
  const theme = useSyncExternalStore(subscribeTheme, chosenTheme);
  return <Pick label="Light" value={theme} options={options} onPick={chooseTheme} />;
}
