import type { TextLine } from './text-line.ts';

/** How a fret is reached from the one before it on its string. */
export type Link = 'hammerOn' | 'pullOff' | 'slide';

/** A bend: how far, and whether it is let down again. */
export interface Bend {
  readonly semitones: number;
  readonly isReleased: boolean;
  readonly isBentBefore: boolean;
}

/** One fret number or x, with what its signs say. */
export interface FretSign {
  /** From 0, the highest. */
  readonly string: number;
  /** From the left of its bar. */
  readonly column: number;
  readonly endColumn: number;
  readonly line: TextLine;
  /** Where it stands in its line. */
  readonly index: number;
  /** Null for a dead note. */
  readonly fret: number | null;
  isGhost: boolean;
  harmonic: 'natural' | 'artificial' | null;
  hasVibrato: boolean;
  isTapped: boolean;
  bend: Bend | null;
  /** How it is reached from the note before on its string. */
  link: Link | null;
  /** How the next note on its string is reached. */
  linkToNext: Link | null;
  /** A slide from nowhere or to nowhere. */
  slideIn: 'fromBelow' | 'fromAbove' | null;
  slideOut: 'up' | 'down' | null;
}

/** Signs on a string that are not understood. */
export interface StraySign {
  readonly text: string;
  readonly column: number;
  readonly line: TextLine;
  readonly index: number;
}
