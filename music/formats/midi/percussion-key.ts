import type { HitKind } from '../../score/score.ts';

/** The channel that General MIDI keeps for percussion, counted from 0. **Source** General MIDI Level 1: channel 10. */
export const percussionChannel = 9;

/** The percussion key that stands for each hit on a guitar: bass drum 1, side stick, electric snare, closed hi-hat. **Source** the keys are General MIDI Level 1's percussion key map; which one suits which hit is common practice, no source. */
export const keyOfHit: Readonly<Record<HitKind, number>> = {
  lowBody: 36,
  highBody: 37,
  stringSlap: 40,
  deadNote: 42,
};

/** Drums that sound low: bass drums, floor and low toms, low bongo, conga, timbale and agogô. **Source** General MIDI Level 1 percussion key map, from memory. */
const lowKeys = new Set([35, 36, 41, 43, 45, 47, 61, 64, 66, 68]);
/** Snares and the hand clap. */
const slapKeys = new Set([38, 39, 40]);
/** Closed and pedalled hi-hat, muted conga and triangle: short and dry. */
const deadKeys = new Set([42, 44, 62, 80]);

/** What a percussion key is taken for on a guitar; whatever is neither low, slapped nor dead is a hit high on the body. */
export function hitOfKey(key: number): HitKind {
  if (lowKeys.has(key)) return 'lowBody';
  if (slapKeys.has(key)) return 'stringSlap';
  return deadKeys.has(key) ? 'deadNote' : 'highBody';
}
