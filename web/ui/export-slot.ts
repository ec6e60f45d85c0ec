import type { ComponentType } from 'react';
import type { NamedMix } from '../../contract/index.ts';
import type { Excerpt } from '../../music/index.ts';

/** The slip that takes a song out, as screens are given it by their route. */
export type ExportSlot = ComponentType<{
  readonly songId: string;
  /** The bars that are open, if any are. */
  readonly excerpt: Excerpt | null;
  /** What is heard just now, where that is otherwise than everybody plainly. */
  readonly heard?: NamedMix | null;
  readonly isOpen: boolean;
  readonly onClose: () => void;
}>;
