import type { Tuning } from '../../music/index.ts';

/** What is to be plucked: a pitch with its written end, and how much it is missed where it cannot be played. */
export interface Pluck {
  readonly midi: number;
  readonly endTicks: number;
  readonly isOuter: boolean;
}

/** What sounds on a string. **Shape** `pluck` is the caller’s number of the pluck. */
export interface Sounding {
  readonly pluck: number;
  readonly fret: number;
  readonly endTicks: number;
}

/** What the two hands do: the note on each string, and the fret at which the left hand lies. */
export interface Hands {
  readonly strings: readonly (Sounding | null)[];
  readonly position: number;
}

/** What one moment does to the strings. */
export interface Plucked {
  readonly hands: Hands;
  /** The string of each pluck, counted from 0, the highest; null where it could not be played. */
  readonly stringOf: readonly (number | null)[];
  /** The plucks that stop sounding here. */
  readonly ended: readonly number[];
}

const lastFret = 15;
const reachFrets = 4;
const missedOuter = 4000;
const missedInner = 2000;
/** What it costs to cut a written note off, beside its rest. */
const cutCost = 40;
const positionCost = 6;

interface Moment {
  readonly tuning: Tuning;
  readonly hands: Hands;
  readonly plucks: readonly Pluck[];
  readonly onsetTicks: number;
  readonly ticksPerQuarter: number;
}

type Places = readonly (number | null)[];

const fretOf = (tuning: Tuning, pluck: Pluck, string: number): number => pluck.midi - (tuning[string] as number);

function stopped({ tuning, plucks }: Moment, places: Places): readonly number[] {
  return places
    .flatMap((string, index) => (string === null ? [] : [fretOf(tuning, plucks[index] as Pluck, string)]))
    .filter((fret) => fret > 0);
}

/** What of the strings must stop for these places: the strings plucked again, and those that the hand must leave. */
function endedBy(moment: Moment, places: Places): readonly Sounding[] {
  const frets = stopped(moment, places);
  const [lowest, highest] = [Math.min(...frets), Math.max(...frets)];
  return moment.hands.strings.flatMap((sounding, string) => {
    if (sounding === null) return [];
    const isLeft =
      frets.length > 0 &&
      sounding.fret > 0 &&
      (sounding.fret < highest - reachFrets || sounding.fret > lowest + reachFrets);
    return isLeft || places.includes(string) ? [sounding] : [];
  });
}

function priceOf(moment: Moment, places: Places): number {
  const { plucks, hands, onsetTicks, ticksPerQuarter } = moment;
  const frets = stopped(moment, places);
  if (Math.max(0, ...frets) - Math.min(...frets, Infinity) > reachFrets) return Infinity;
  const missed = places.reduce<number>(
    (sum, string, index) => sum + (string !== null ? 0 : plucks[index]?.isOuter === true ? missedOuter : missedInner),
    0,
  );
  const cut = endedBy(moment, places)
    .filter(({ endTicks }) => endTicks > onsetTicks)
    .reduce((sum, { endTicks }) => sum + cutCost + (10 * (endTicks - onsetTicks)) / ticksPerQuarter, 0);
  const shift = frets.length === 0 ? 0 : Math.abs(Math.min(...frets) - hands.position);
  return missed + cut + positionCost * shift + frets.reduce((sum, fret) => sum + fret, 0);
}

/** Every way to put the plucks on strings of their own, or to leave some out. */
function* waysToPlace(moment: Moment, chosen: Places = []): Generator<Places> {
  const pluck = moment.plucks[chosen.length];
  if (pluck === undefined) {
    yield chosen;
    return;
  }
  for (let string = 0; string < moment.tuning.length; string++) {
    const fret = fretOf(moment.tuning, pluck, string);
    if (!chosen.includes(string) && fret >= 0 && fret <= lastFret) yield* waysToPlace(moment, [...chosen, string]);
  }
  yield* waysToPlace(moment, [...chosen, null]);
}

/** Where the hands put the plucks of a moment: on strings of their own, within reach, with as little cut off, moved and lost as can be. **Source** common practice, no source. */
export function pluckTogether(moment: Moment, firstPluck: number): Plucked {
  let best: Places = moment.plucks.map(() => null);
  let leastPrice = Infinity;
  for (const places of waysToPlace(moment)) {
    const price = priceOf(moment, places);
    if (price >= leastPrice) continue;
    leastPrice = price;
    best = places;
  }
  const ended = endedBy(moment, best);
  const strings = moment.hands.strings.map((sounding, string): Sounding | null => {
    const index = best.indexOf(string);
    if (index === -1) return sounding !== null && ended.includes(sounding) ? null : sounding;
    const pluck = moment.plucks[index] as Pluck;
    return { pluck: firstPluck + index, fret: fretOf(moment.tuning, pluck, string), endTicks: pluck.endTicks };
  });
  const frets = stopped(moment, best);
  const position = frets.length === 0 ? moment.hands.position : Math.min(...frets);
  return { hands: { strings, position }, stringOf: best, ended: ended.map(({ pluck }) => pluck) };
}
