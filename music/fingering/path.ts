import type { Fingerboard, SoundingNote } from '../score/score.ts';
import type { Assignment } from './assignments.ts';
import { gripOf, unplayable } from './hand.ts';

/** One moment: what is struck, and the ways to play it. */
export interface FingeringMoment {
  readonly onsetTicks: number;
  readonly notes: readonly SoundingNote[];
  readonly assignments: readonly Assignment[];
}

/** What cannot be played of a moment, as it was chosen. */
export interface Trouble {
  readonly missing: number;
  readonly isOutOfReach: boolean;
  readonly lacksFingers: boolean;
  /** The strings that are struck although they should still sound. */
  readonly cutStrings: readonly number[];
}

/** One step of the way through the music. */
export interface Step {
  readonly cost: number;
  /** The fret at which the first finger is. */
  readonly position: number;
  /** The fret that sounds on each string, −1 for none, and until when. */
  readonly stopped: readonly number[];
  readonly endTicks: readonly number[];
  readonly places: readonly (Fingerboard | null)[];
  readonly trouble: Trouble;
  readonly before: Step | null;
}

const costs = { moved: 6, perFret: 3, cutString: unplayable, missing: 10 * unplayable };
/** How many ways are followed at once. */
const beamWidth = 8;

const noTrouble: Trouble = { missing: 0, isOutOfReach: false, lacksFingers: false, cutStrings: [] };

/** The hand at the nut, nothing sounding. */
const openingStep = (stringCount: number): Step => ({
  cost: 0,
  position: 1,
  stopped: Array.from({ length: stringCount }, () => -1),
  endTicks: Array.from({ length: stringCount }, () => 0),
  places: [],
  trouble: noTrouble,
  before: null,
});

/** The position nearest to where the hand is. */
function movedTo(position: number, range: readonly [number, number] | null): number {
  if (range === null) return position;
  return Math.max(range[0], Math.min(range[1], position));
}

/** A way to go on from a step, priced before it is made. */
interface Offer {
  readonly before: Step;
  readonly assignment: Assignment;
  readonly cost: number;
}

/** The frets that sound once the notes are struck, written into `stopped`; gives the strings that are struck too early. */
function strike(stopped: number[], before: Step, { onsetTicks }: FingeringMoment, { places }: Assignment): number[] {
  for (let string = 0; string < before.stopped.length; string += 1) {
    const isHeld = (before.endTicks[string] ?? 0) > onsetTicks;
    stopped[string] = isHeld ? (before.stopped[string] ?? -1) : -1;
  }
  const cutStrings: number[] = [];
  for (const place of places) {
    if (place === null) continue;
    if ((stopped[place.string - 1] ?? -1) >= 0) cutStrings.push(place.string);
    stopped[place.string - 1] = place.fret;
  }
  return cutStrings;
}

function offerOf(scratch: number[], before: Step, moment: FingeringMoment, assignment: Assignment): Offer {
  const cut = strike(scratch, before, moment, assignment).length;
  const grip = gripOf(scratch);
  const distance = Math.abs(movedTo(before.position, grip.positions) - before.position);
  const movement = distance === 0 ? 0 : costs.moved + costs.perFret * distance;
  const cost = before.cost + grip.cost + movement + cut * costs.cutString + assignment.missing * costs.missing;
  return { before, assignment, cost };
}

function endsAfter(before: Step, { onsetTicks, notes }: FingeringMoment, { places }: Assignment): number[] {
  const endTicks = before.endTicks.map((end) => (end > onsetTicks ? end : 0));
  places.forEach((place, index) => {
    const note = notes[index];
    if (place !== null && note !== undefined) endTicks[place.string - 1] = note.onsetTicks + note.lengthTicks;
  });
  return endTicks;
}

function stepOf({ before, assignment, cost }: Offer, moment: FingeringMoment): Step {
  const stopped = [...before.stopped];
  const cutStrings = strike(stopped, before, moment, assignment);
  const { positions, isInReach, hasFingers } = gripOf(stopped);
  const { missing, places } = assignment;
  const isPlayable = cutStrings.length + missing === 0 && isInReach && hasFingers;
  return {
    cost,
    position: movedTo(before.position, positions),
    stopped,
    endTicks: endsAfter(before, moment, assignment),
    places,
    trouble: isPlayable ? noTrouble : { missing, isOutOfReach: !isInReach, lacksFingers: !hasFingers, cutStrings },
    before,
  };
}

/** The cheapest steps, of those that leave the hand and the strings alike only the cheapest; of equals the one found first. */
function best(offers: Offer[], moment: FingeringMoment): Step[] {
  const kept: Step[] = [];
  const seen = new Set<string>();
  for (const offer of offers.sort((a, b) => a.cost - b.cost)) {
    const step = stepOf(offer, moment);
    const key = `${step.position};${step.stopped.join()};${step.endTicks.join()}`;
    if (seen.has(key)) continue;
    seen.add(key);
    kept.push(step);
    if (kept.length === beamWidth) break;
  }
  return kept;
}

/** The way through all moments that costs least, as far as a bounded search finds it: the steps in order. */
export function cheapestPath(moments: readonly FingeringMoment[], stringCount: number): Step[] {
  const scratch: number[] = [];
  let beam = [openingStep(stringCount)];
  for (const moment of moments) {
    const offers = beam.flatMap((before) => moment.assignments.map((way) => offerOf(scratch, before, moment, way)));
    beam = best(offers, moment);
  }
  const path: Step[] = [];
  for (let step: Step | null = beam[0] ?? null; step?.before != null; step = step.before) path.push(step);
  return path.reverse();
}
