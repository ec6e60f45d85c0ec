import type { Leanings } from './costs.ts';
import { likenessReaches, situationsOf } from './likeness.ts';
import { costPerSemitone } from './prices.ts';
import type { UnitTable } from './units.ts';

/** What a unit pays for leaving the line that it has in the answer without pins. **Units** semitones. */
const calm = 8;
/** The same for what begins together with a pinned note: who moves one note of a chord leaves the others. **Units** semitones. */
const calmBeside = 60;
/** What it pays for leaving the line that like situations were pinned to, by reach. **Units** semitones. */
const likePrices: readonly number[] = [14, 12, 8, 4, 2];
/** How many settled units a likeness needs to be believed, by reach. */
const fewestVotes: readonly number[] = [1, 1, 1, 2, 4];
const clearShare = 0.7;
const mostLabels = 8;

/** What there is to learn from. */
export interface Lesson {
  readonly units: UnitTable;
  /** **Shape** one entry per unit; −1 where it is free. */
  readonly pins: Int8Array;
  /** Whether lines of the piece hold several notes at once, so that a pinned note may join another instead of changing places with it. */
  readonly holdsChords: boolean;
}

function votesBySituation(keys: Int32Array, pins: Int8Array, free: Uint8Array): Map<number, Uint16Array> {
  const votes = new Map<number, Uint16Array>();
  let lastPinned = pins.length - 1;
  while (lastPinned >= 0 && pins[lastPinned] === -1) lastPinned--;
  for (let unit = 0; unit <= lastPinned; unit++) {
    const key = keys[unit] as number;
    let counts = votes.get(key);
    if (counts === undefined) votes.set(key, (counts = new Uint16Array(mostLabels)));
    const label = pins[unit] === -1 ? (free[unit] as number) : (pins[unit] as number);
    counts[label] = Math.min(65535, (counts[label] as number) + 1);
  }
  return votes;
}

function clearWinner(counts: Uint16Array | undefined, fewest: number): number {
  if (counts === undefined) return -1;
  let best = 0;
  let sum = 0;
  for (let label = 0; label < mostLabels; label++) {
    sum += counts[label] as number;
    if ((counts[label] as number) > (counts[best] as number)) best = label;
  }
  return sum >= fewest && (counts[best] as number) >= clearShare * sum ? best : -1;
}

/** Every unit leans to the line that it has in an answer, most of all beside a pin, so that one pin changes little else. */
export function calmLeanings({ units, pins, holdsChords }: Lesson, free: Uint8Array): Leanings {
  const price = new Int32Array(units.unitCount).fill(calm * costPerSemitone);
  const momentCount = units.momentStart.length - 1;
  for (let moment = 0; moment < momentCount; moment++) {
    const from = units.momentStart[moment] as number;
    const to = units.momentStart[moment + 1] as number;
    if (holdsChords && pins.subarray(from, to).some((pin) => pin !== -1))
      price.fill(calmBeside * costPerSemitone, from, to);
  }
  return { line: Int8Array.from(free), price };
}

/**
 * What pins teach about the rest: a unit leans to the line that units in the like situation were settled on, else to its line in the answer
 * without pins. Everything before the last pin that no pin changed counts as settled too. A pure function of the set of pins.
 */
export function leaningsOf(lesson: Lesson, free: Uint8Array): Leanings {
  const { units, pins } = lesson;
  const { line, price } = calmLeanings(lesson, free);
  const isLearnt = new Uint8Array(units.unitCount);
  likenessReaches.forEach((reach, index) => {
    const keys = situationsOf(units, reach);
    const votes = votesBySituation(keys, pins, free);
    for (let unit = 0; unit < units.unitCount; unit++) {
      if (isLearnt[unit] === 1) continue;
      const winner = clearWinner(votes.get(keys[unit] as number), fewestVotes[index] as number);
      if (winner === -1) continue;
      isLearnt[unit] = 1;
      if (winner === line[unit]) continue;
      line[unit] = winner;
      price[unit] = (likePrices[index] as number) * costPerSemitone;
    }
  });
  return { line, price };
}
