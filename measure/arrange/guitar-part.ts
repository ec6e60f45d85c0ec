import type { Tuning } from '../../music/index.ts';
import { pluckTogether, type Hands } from './hand.ts';
import type { SourceNote } from './source.ts';

/** How long notes are written: as in the source until their string is needed, until it is struck again, or up to the next note of all. */
export type Lengths = 'written' | 'ringing' | 'tablature';

/** One note of the guitar. */
export interface GuitarNote {
  readonly onsetTicks: number;
  readonly lengthTicks: number;
  readonly midi: number;
  /** Counted from 0, the highest. */
  readonly string: number;
  readonly fret: number;
  /** One line as a rule; two where they meet on one pitch. */
  readonly lines: readonly number[];
}

interface PlannedPluck {
  readonly onsetTicks: number;
  readonly midi: number;
  readonly endTicks: number;
  readonly lines: readonly number[];
  readonly isOuter: boolean;
}

/** How long a note may ring after its stroke. **Units** quarters. */
const longestRing = 4;

function plannedPlucks(lines: readonly (readonly SourceNote[])[]): ReadonlyMap<number, readonly PlannedPluck[]> {
  const plucks = new Map<string, PlannedPluck>();
  lines.forEach((line, index) => {
    for (const { onsetTicks, lengthTicks, midi } of line) {
      const key = `${onsetTicks} ${midi}`;
      const before = plucks.get(key);
      const endTicks = Math.max(before?.endTicks ?? 0, onsetTicks + lengthTicks);
      const together = [...new Set([...(before?.lines ?? []), index])].slice(0, 2);
      const isOuter = before?.isOuter === true || index === 0 || index === lines.length - 1;
      plucks.set(key, { onsetTicks, midi, endTicks, lines: together, isOuter });
    }
  });
  const moments = new Map<number, PlannedPluck[]>();
  for (const pluck of [...plucks.values()].sort((a, b) => a.onsetTicks - b.onsetTicks || b.midi - a.midi))
    moments.set(pluck.onsetTicks, [...(moments.get(pluck.onsetTicks) ?? []), pluck]);
  return moments;
}

/** **Shape** `momentTicks`: onsets in order of time. */
function lengthOf(
  { onsetTicks, endTicks }: PlannedPluck,
  stoppedTicks: number | undefined,
  lengths: Lengths,
  nextTicks: number | undefined,
  ticksPerQuarter: number,
): number {
  const stopped = stoppedTicks ?? Infinity;
  if (lengths === 'tablature') return Math.min(nextTicks ?? endTicks, stopped) - onsetTicks;
  if (lengths === 'written') return Math.min(endTicks, stopped) - onsetTicks;
  return Math.min(stopped - onsetTicks, Math.max(endTicks - onsetTicks, longestRing * ticksPerQuarter));
}

/** The notes of the lines that one guitar can play, each on a string; from high to low at each moment. */
export function guitarPart(
  lines: readonly (readonly SourceNote[])[],
  tuning: Tuning,
  lengths: Lengths,
  ticksPerQuarter: number,
): readonly GuitarNote[] {
  const moments = plannedPlucks(lines);
  const momentTicks = [...moments.keys()];
  const played: { pluck: PlannedPluck; string: number | null }[] = [];
  const stoppedAt = new Map<number, number>();
  let hands: Hands = { strings: tuning.map(() => null), position: 0 };
  for (const [onsetTicks, plucks] of moments) {
    const done = pluckTogether({ tuning, hands, plucks, onsetTicks, ticksPerQuarter }, played.length);
    for (const pluck of done.ended) stoppedAt.set(pluck, onsetTicks);
    plucks.forEach((pluck, index) => played.push({ pluck, string: done.stringOf[index] ?? null }));
    hands = done.hands;
  }
  const nextOf = new Map(momentTicks.map((ticks, index) => [ticks, momentTicks[index + 1]]));
  return played.flatMap(({ pluck, string }, index) => {
    if (string === null) return [];
    const { onsetTicks, midi } = pluck;
    const lengthTicks = lengthOf(pluck, stoppedAt.get(index), lengths, nextOf.get(onsetTicks), ticksPerQuarter);
    return [{ onsetTicks, lengthTicks, midi, string, fret: midi - (tuning[string] as number), lines: pluck.lines }];
  });
}
