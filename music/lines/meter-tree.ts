import type { Meter } from '../score/score.ts';
import { isPowerOfTwo, unitsPerQuarter } from './note-values.ts';

/** How a stretch of a bar divides: into two halves, the three parts of a compound beat (or the items of a tuplet), equal beats, or unequal groups. */
type Division = 'halves' | 'thirds' | 'beats' | 'groups';

/** A stretch of a bar that the ear takes as one, down to the beat and its parts. **Units** 256th notes from the start of the meter. */
export interface MetricNode {
  readonly startUnits: number;
  readonly lengthUnits: number;
  readonly division: Division;
  /** Holds more than one beat. */
  readonly isAboveBeat: boolean;
  /** Its beats are divided in three. */
  readonly isCompound: boolean;
  readonly children: () => readonly MetricNode[];
}

/** Moves a way of building a node to where the node begins. */
type Plan = (startUnits: number) => MetricNode;

/** A stretch divided in two again and again: a simple beat, or a part of one. */
const halving =
  (lengthUnits: number): Plan =>
  (startUnits) => ({
    startUnits,
    lengthUnits,
    division: 'halves',
    isAboveBeat: false,
    isCompound: false,
    children: once(() =>
      lengthUnits % 2 === 0 ? laidOut(startUnits, [halving(lengthUnits / 2), halving(lengthUnits / 2)]) : [],
    ),
  });

/** Equal items that each halve: a compound beat, or a tuplet. */
export const itemised =
  (count: number, itemUnits: number): Plan =>
  (startUnits) => ({
    startUnits,
    lengthUnits: count * itemUnits,
    division: 'thirds',
    isAboveBeat: false,
    isCompound: true,
    children: once(() =>
      laidOut(
        startUnits,
        Array.from({ length: count }, () => halving(itemUnits)),
      ),
    ),
  });

/** A value that is made when it is first asked for. */
function once<Value>(make: () => Value): () => Value {
  let made: Value | null = null;
  return () => (made ??= make());
}

function laidOut(startUnits: number, plans: readonly Plan[]): readonly MetricNode[] {
  let cursor = startUnits;
  return plans.map((plan) => {
    const node = plan(cursor);
    cursor += node.lengthUnits;
    return node;
  });
}

const above =
  (division: Division, plans: readonly Plan[]): Plan =>
  (startUnits) => {
    const children = laidOut(startUnits, plans);
    const lengthUnits = children.reduce((sum, child) => sum + child.lengthUnits, 0);
    const isCompound = children.every((child) => child.isCompound);
    return { startUnits, lengthUnits, division, isAboveBeat: true, isCompound, children: () => children };
  };

function equalBeats(count: number, beat: Plan): Plan {
  if (count === 1) return beat;
  if (count === 2) return above('halves', [beat, beat]);
  if (isPowerOfTwo(count)) {
    const half = equalBeats(count / 2, beat);
    return above('halves', [half, half]);
  }
  return above(
    'beats',
    Array.from({ length: count }, () => beat),
  );
}

/** Twos with a three at the end, or three and two for five: how an odd meter is felt when it does not say. */
function groupsOf(count: number): readonly number[] {
  if (count === 5) return [3, 2];
  const twos = Math.max(0, Math.floor((count - 3) / 2));
  return [...Array.from({ length: twos }, () => 2), count - 2 * twos];
}

/** Beats of the unit itself, for units of a quarter or longer. */
function slowPlan(count: number, unit: number): Plan {
  if (count % 3 === 0 && count > 3) return equalBeats(count / 3, itemised(3, unit));
  if (count > 4 && !isPowerOfTwo(count)) {
    const groups = count === 7 ? [4, 3] : groupsOf(count);
    return above(
      'groups',
      groups.map((size) => equalBeats(size, halving(unit))),
    );
  }
  return equalBeats(count, halving(unit));
}

/** Beats of three or two units, for eighths and shorter. */
function fastPlan(count: number, unit: number): Plan {
  if (count % 3 === 0) return equalBeats(count / 3, itemised(3, unit));
  if (count === 1) return halving(unit);
  if (count % 2 === 0) return equalBeats(count / 2, halving(2 * unit));
  return above(
    'groups',
    groupsOf(count).map((size) => fastPlan(size, unit)),
  );
}

/** The length of a bar of this meter. **Units** 256th notes. */
export const meterUnits = (meter: Meter): number =>
  (meter.beats.reduce((sum, count) => sum + count, 0) * 4 * unitsPerQuarter) / meter.beatUnit;

/** How one bar of the meter divides, with its beats felt as is usual where the meter does not say (common practice, no source). */
function meterPlan(meter: Meter): Plan {
  const unit = (4 * unitsPerQuarter) / meter.beatUnit;
  if (!Number.isInteger(unit)) return halving(meterUnits(meter));
  const plan = meter.beatUnit >= 8 ? fastPlan : slowPlan;
  const [only, ...others] = meter.beats;
  if (only === undefined) return halving(4 * unitsPerQuarter);
  if (others.length === 0) return plan(only, unit);
  return above(
    'groups',
    meter.beats.map((count) => (meter.beatUnit >= 8 ? fastPlan(count, unit) : equalBeats(count, halving(unit)))),
  );
}

/** More repetitions of its meter than any bar has that a person wrote. */
const mostCopies = 256;

/** A stretch that halves and reaches at least so far: for bars whose meter tells nothing. */
function halvingOver(lengthUnits: number): Plan {
  let reach = 4 * unitsPerQuarter;
  while (reach < lengthUnits) reach *= 2;
  return halving(reach);
}

/** How a bar divides that reaches `lengthUnits` into its meter; a bar that is longer than its meter begins the meter anew. */
export function meterTree(meter: Meter, lengthUnits: number): MetricNode {
  const plan = meterPlan(meter);
  const copies = Math.max(1, Math.ceil(lengthUnits / meterUnits(meter)));
  if (!(copies <= mostCopies)) return halvingOver(lengthUnits)(0);
  return copies === 1
    ? plan(0)
    : above(
        'groups',
        Array.from({ length: copies }, () => plan),
      )(0);
}

/** The beats below a node, in order. */
export const beatsOf = (node: MetricNode): readonly MetricNode[] =>
  node.isAboveBeat ? node.children().flatMap(beatsOf) : [node];
