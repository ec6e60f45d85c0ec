import { untouchedPlayer, type PlayerSnapshot } from './player-snapshot.ts';

/** The player's snapshot, and who is told when it changes. */
export class PlayerState {
  private readonly listeners = new Set<() => void>();
  private snapshot = untouchedPlayer;

  /** Calls the listener after every change of the snapshot; returns how to end that. */
  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  readonly getSnapshot = (): PlayerSnapshot => this.snapshot;

  /** Changes some of it; nobody is told where nothing is different. */
  change(part: Partial<PlayerSnapshot>): void {
    const next = { ...this.snapshot, ...part };
    const keys = Object.keys(part) as (keyof PlayerSnapshot)[];
    if (keys.every((key) => this.snapshot[key] === next[key])) return;
    this.snapshot = next;
    for (const listener of this.listeners) listener();
  }
}
