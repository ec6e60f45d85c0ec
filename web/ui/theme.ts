/** Light, dark, or as the machine says. */
export type Theme = 'machine' | 'light' | 'dark';

const key = 'heddle.theme';
const listeners = new Set<() => void>();

/** The theme that was chosen on this machine. */
export function chosenTheme(): Theme {
  const kept = localStorage.getItem(key);
  return kept === 'light' || kept === 'dark' ? kept : 'machine';
}

/** Puts the chosen theme on the page. */
export function wearTheme(): void {
  const theme = chosenTheme();
  if (theme === 'machine') delete document.documentElement.dataset['theme'];
  else document.documentElement.dataset['theme'] = theme;
}

/** Keeps a theme on this machine and wears it at once. */
export function chooseTheme(theme: Theme): void {
  if (theme === 'machine') localStorage.removeItem(key);
  else localStorage.setItem(key, theme);
  wearTheme();
  for (const listener of listeners) listener();
}

/** Tells `listener` of every choice until the returned function is called. */
export function subscribeTheme(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
