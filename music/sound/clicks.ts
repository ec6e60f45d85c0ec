import type { Click, Subdivision } from '../perform/performance.ts';

/** How the click is set. In a count-in, and in a silence that wants it, the beats click even where it is off. */
export interface ClickSetting {
  readonly isOn: boolean;
  readonly subdivision: Subdivision;
}

/** A click that is off. */
export const silentClick: ClickSetting = { isOn: false, subdivision: 1 };

const near = 1e-9;

/** The clicks from one moment up to another. */
export const clicksWithin = (clicks: readonly Click[], startSeconds: number, endSeconds: number): readonly Click[] =>
  clicks.filter(({ atSeconds }) => atSeconds >= startSeconds - near && atSeconds < endSeconds - near);
