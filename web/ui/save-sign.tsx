import styles from './save-sign.module.css';

/** How far work has come on its way to the server. */
export type SaveState =
  | { readonly kind: 'saved' }
  | { readonly kind: 'saving' }
  | { readonly kind: 'waiting'; readonly count: number; readonly what: string }
  | { readonly kind: 'differs' };

function wordsOf(state: SaveState): string {
  switch (state.kind) {
    case 'saved':
      return 'saved';
    case 'saving':
      return 'saving';
    case 'waiting':
      return `offline, ${state.count} ${state.what} waiting`;
    case 'differs':
      return 'changed meanwhile';
  }
}

interface SaveSignProps {
  readonly state: SaveState;
}

/** A short thread with a knot: whole when all is saved, loose while something is on its way. */
export function SaveSign({ state }: SaveSignProps) {
  return (
    <span className={styles.sign} role="status">
      <svg width="26" height="10" viewBox="0 0 26 10" aria-hidden="true">
        <path
          d="M1 5H19"
          stroke="currentColor"
          strokeWidth="2"
          strokeDasharray={state.kind === 'saved' ? 'none' : '4 3'}
        />
        <circle
          cx="22"
          cy="5"
          r="3"
          fill={state.kind === 'saved' ? 'currentColor' : 'none'}
          stroke="currentColor"
          strokeWidth="1.5"
        />
      </svg>
      {wordsOf(state)}
    </span>
  );
}
