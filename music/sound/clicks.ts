import type { BeatAccent, ClickBeat } from '../perform/performance.ts';

/** How a click is marked: a bar's first beat, another beat, a part of a beat. */
export type ClickAccent = BeatAccent | 'part';

/** Into how many equal parts the click divides a beat; 1 leaves it whole. */
export type Subdivision = 1 | 2 | 3 | 4;

/** How the click is set. In a count-in, and in a silence that wants it, the beats click even where it is off. */
export interface ClickSetting {
  readonly isOn: boolean;
  readonly subdivision: Subdivision;
}

/** A click that is off. */
export const silentClick: ClickSetting = { isOn: false, subdivision: 1 };

/** One moment at which the click may sound. **Units** seconds, as its beat's. */
export interface Click {
  readonly atSeconds: number;
  readonly accent: ClickAccent;
  /** The subdivisions that it belongs to. */
  readonly subdivisions: readonly Subdivision[];
}

const near = 1e-9;

/** Where within a beat the parts of some subdivision begin, as shares of its length. */
const parts: readonly { readonly share: number; readonly subdivisions: readonly Subdivision[] }[] = [
  { share: 0, subdivisions: [1, 2, 3, 4] },
  { share: 1 / 4, subdivisions: [4] },
  { share: 1 / 3, subdivisions: [3] },
  { share: 1 / 2, subdivisions: [2, 4] },
  { share: 2 / 3, subdivisions: [3] },
  { share: 3 / 4, subdivisions: [4] },
];

/** Every click of some beats and their parts from one moment up to another, in order; a beat that is cut short by the next loses the parts that it has no time for. */
export function clicksWithin(beats: readonly ClickBeat[], startSeconds: number, endSeconds: number): readonly Click[] {
  const clicks: Click[] = [];
  for (const [index, beat] of beats.entries()) {
    if (beat.atSeconds + beat.lengthSeconds < startSeconds - near || beat.atSeconds >= endSeconds - near) continue;
    const limit = Math.min(endSeconds, beats[index + 1]?.atSeconds ?? Infinity);
    for (const { share, subdivisions } of parts) {
      const atSeconds = beat.atSeconds + share * beat.lengthSeconds;
      if (atSeconds < startSeconds - near || atSeconds >= limit - near) continue;
      clicks.push({ atSeconds, accent: share === 0 ? beat.accent : 'part', subdivisions });
    }
  }
  return clicks;
}
