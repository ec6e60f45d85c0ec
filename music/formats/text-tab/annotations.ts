import type { EndingSign } from './endings.ts';
import type { Moment } from './moments.ts';
import type { RhythmStep } from './rhythm-letters.ts';

/** Texts by the moment that they are set to; by null where they stand at the start of a bar. */
export type PlacedTexts = Map<Moment | null, string[]>;

/** What stands above and below one bar of a system. */
export interface Annotations {
  readonly chords: PlacedTexts;
  readonly wordsAbove: PlacedTexts;
  readonly wordsBelow: PlacedTexts;
  readonly lyrics: PlacedTexts;
  readonly palmMuted: Set<Moment>;
  readonly lettingRing: Set<Moment>;
  readonly steps: RhythmStep[];
  sections: string[];
  /** The ending that a number over the bar begins. */
  ending: EndingSign | null;
  meterText: string | null;
  times: number | null;
}

/** A bar about which nothing is said. */
export const noAnnotations = (): Annotations => ({
  chords: new Map(),
  wordsAbove: new Map(),
  wordsBelow: new Map(),
  lyrics: new Map(),
  palmMuted: new Set(),
  lettingRing: new Set(),
  steps: [],
  sections: [],
  ending: null,
  meterText: null,
  times: null,
});

/** Adds a text to those of a moment. */
export function addText(texts: PlacedTexts, moment: Moment | null, text: string): void {
  texts.set(moment, [...(texts.get(moment) ?? []), text]);
}
