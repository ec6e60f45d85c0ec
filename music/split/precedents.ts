import { echoesOf, noEcho } from './echoes.ts';
import { fullLikeness, likenessOf, situationsOf } from './likeness.ts';
import { mostLines } from './texture.ts';
import type { UnitTable } from './units.ts';

/** What a person's marks tell about a piece. */
export interface Lesson {
  readonly units: UnitTable;
  readonly ticksPerQuarter: number;
  /** The line of each unit in the answer found without any marks. */
  readonly unaided: Uint8Array;
  /** The line of each unit now, marks included. */
  readonly standing: Uint8Array;
  /** The line of each marked unit, −1 elsewhere. */
  readonly pins: Int8Array;
  /** Units before this one have been looked at: where they stand is right. */
  readonly reviewed: number;
  /** Whether a line may hold several notes at once. */
  readonly holdsChords: boolean;
}

/** A unit that follows what was done in like places. */
export interface Follower {
  readonly unit: number;
  readonly line: number;
  /** 0 to 1: the share of the likeness that speaks for it. */
  readonly share: number;
}

/** How much stays as it is unless a likeness says more: little where chords make every reading possible, much where lines are single. */
const inertiaWithChords = Math.round(0.4 * fullLikeness);
const inertiaOfSingleLines = 2 * fullLikeness;
/** What a note left unmarked within a run of marks says against its going to their line. */
const denialWeight = 2;
/** The same music again, transposed or not, is told by this many moments before or after; it says more than any likeness, and twice as much where both agree. */
const echoReach = 2;
const echoLikeness = Math.round(1.5 * fullLikeness);
/** So many precedents are looked at, the latest of those that were left alone. */
const mostPrecedents = 500;

/** The precedents that have one line in the unaided answer. */
interface Precedents {
  readonly moved: number[];
  readonly kept: number[];
  readonly denied: number[];
}

/** The lines that a unit was passed over for: those of the runs of marks that it lies within. **Shape** a bit per line. */
function deniedLines({ pins, standing }: Lesson): Uint8Array {
  const denied = new Uint8Array(pins.length);
  for (let line = 0; line < mostLines; line++) {
    let last = -1;
    for (let unit = 0; unit < pins.length; unit++) {
      if (pins[unit] === line) {
        for (let between = last + 1; last !== -1 && between < unit; between++)
          if (pins[between] === -1) denied[between] = (denied[between] as number) | (1 << line);
        last = unit;
      } else if (standing[unit] === line) last = -1;
    }
  }
  return denied;
}

function precedentsOf(lesson: Lesson, denied: Uint8Array): readonly Precedents[] {
  const { pins, standing, unaided, reviewed } = lesson;
  const byLine = Array.from({ length: mostLines }, (): Precedents => ({ moved: [], kept: [], denied: [] }));
  for (let unit = pins.length - 1; unit >= 0; unit--) {
    const of = byLine[unaided[unit] as number] as Precedents;
    const isSettled = unit < reviewed || pins[unit] !== -1;
    const kind = !isSettled ? 'denied' : standing[unit] === unaided[unit] ? 'kept' : 'moved';
    if ((isSettled || denied[unit] !== 0) && of[kind].length < mostPrecedents) of[kind].push(unit);
  }
  return byLine;
}

const isEcho = (keys: Int32Array, one: number, other: number): number =>
  keys[one] === keys[other] && keys[one] !== noEcho ? 1 : 0;

/**
 * Which units follow the marks: those that stand like units which were moved from the same line, and unlike units which were left there.
 * A pure function of the lesson. **Shape** in reading order.
 * **Source** nearest neighbours weighed by likeness: T. Cover, P. Hart, Nearest neighbor pattern classification, IEEE Trans. Inf. Theory 13 (1967).
 */
export function followersOf(lesson: Lesson): readonly Follower[] {
  const { units, pins, unaided, standing, reviewed } = lesson;
  const situations = situationsOf(units, unaided, lesson.ticksPerQuarter);
  const [lead, follow] = [echoesOf(units, echoReach, 0), echoesOf(units, 0, echoReach)];
  const likeness = (one: number, other: number): number => {
    const sides = isEcho(lead, one, other) + isEcho(follow, one, other);
    return sides === 0 ? likenessOf(situations, one, other) : sides * echoLikeness;
  };
  const denied = deniedLines(lesson);
  const byLine = precedentsOf(lesson, denied);
  const inertia = lesson.holdsChords ? inertiaWithChords : inertiaOfSingleLines;
  const followers: Follower[] = [];
  for (let unit = reviewed; unit < units.unitCount; unit++) {
    if (pins[unit] !== -1) continue;
    const precedents = byLine[unaided[unit] as number] as Precedents;
    const votes = new Float64Array(mostLines);
    let isLike = false;
    for (const other of precedents.moved) {
      const alike = likeness(unit, other);
      if (alike === 0) continue;
      isLike = true;
      votes[standing[other] as number] = (votes[standing[other] as number] as number) + alike;
    }
    if (!isLike) continue;
    const stay = precedents.kept.reduce((sum, other) => sum + likeness(unit, other), inertia);
    const found = winner(lesson, unit, votes, stay, (line) => denialOf(likeness, precedents, denied, unit, line));
    if (found.line !== standing[unit]) followers.push(found);
  }
  return followers;
}

function denialOf(
  likeness: (one: number, other: number) => number,
  { denied: passedOver }: Precedents,
  denied: Uint8Array,
  unit: number,
  line: number,
): number {
  let sum = 0;
  for (const other of passedOver)
    if (((denied[other] as number) & (1 << line)) !== 0) sum += denialWeight * likeness(unit, other);
  return sum;
}

function winner(
  { unaided }: Lesson,
  unit: number,
  votes: Float64Array,
  stay: number,
  against: (line: number) => number,
): Follower {
  const from = unaided[unit] as number;
  let best: Follower = { unit, line: from, share: 1 };
  let most = 0;
  for (let line = 0; line < mostLines; line++) {
    const speaksFor = votes[line] as number;
    if (line === from || speaksFor <= most || speaksFor <= stay) continue;
    const speaksAgainst = stay + against(line);
    if (speaksFor <= speaksAgainst) continue;
    most = speaksFor;
    best = { unit, line, share: speaksFor / (speaksFor + speaksAgainst) };
  }
  return best;
}
