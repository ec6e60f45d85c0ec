import type { NamedMix } from '../../../contract/index.ts';

/** Somebody's own mixes, and how they are changed. */
export interface OwnShelf {
  readonly mixes: readonly NamedMix[];
  readonly change: (change: (mixes: readonly NamedMix[]) => NamedMix[]) => void;
  /** Why the last change is not kept; null where all is. */
  readonly trouble: string | null;
  readonly again: () => void;
}
