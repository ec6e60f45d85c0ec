import { exactExp } from '../basis/exact-math.ts';
import type { CostContext } from './costs.ts';
import { fullnessOf } from './fullness.ts';
import type { Lattice } from './lattice.ts';
import { leastAround, leastOnLine, marginsOf } from './margins.ts';
import { costPerSemitone } from './prices.ts';
import { strainOf } from './strain.ts';
import type { Texture } from './texture.ts';

/** An answer, and what it was found with. */
export interface Answered {
  readonly context: CostContext;
  readonly texture: Texture;
  readonly lattice: Lattice;
  /** The line of each unit. */
  readonly lines: Uint8Array;
}

/** Fitted by logistic regression to which notes were right, see docs/splitting.md. **Units** log-odds per unit of each column. */
const fit = {
  base: -0.39,
  margin: 3.73,
  marginWhereThin: -2.92,
  onLine: 0.74,
  around: 0.43,
  nearest: 0.08,
  inChord: -0.26,
  atHome: 0.06,
  awayFromFull: -0.95,
  surplus: -2.87,
  independent: 1.85,
  lengthsTellNothing: 0.6,
};

/** Half of what margins can tell is told at these. **Units** semitones. */
const tellingMargin = 8;
const tellingMarginAround = 4;
/** Half of what the distance to full texture can tell is told at this. **Units** quarter notes. */
const tellingDistance = 8;
/** Being this much nearer to its own line's place than to any other is as sure as can be, being as far beyond it as unsure. **Units** semitones. */
const mostAtHome = 6;
const leastAtHome = -12;

const halfAt = (amount: number, half: number): number => amount / (amount + half);
const logistic = (z: number): number => 1 / (1 + exactExp(-z));
const semitones = (margin: number | undefined): number => Math.max(0, margin ?? 0) / costPerSemitone;

/** How much nearer each unit is to where full texture puts its own line than to where it puts any other; 0 where it is never full. **Units** semitones. */
function atHomeOf({ context, lines }: Answered): Float64Array {
  const { units, profile, lineCount } = context;
  const atHome = new Float64Array(lines.length);
  if (profile === null) return atHome;
  for (let moment = 0; moment + 1 < units.momentStart.length; moment++)
    for (let unit = units.momentStart[moment] as number; unit < (units.momentStart[moment + 1] as number); unit++) {
      const middle = ((units.top[unit] as number) + (units.low[unit] as number)) / 2;
      const distanceTo = (line: number): number =>
        Math.abs(middle - (profile.pitch[moment * lineCount + line] as number) / 16);
      let nearest = Infinity;
      for (let line = 0; line < lineCount; line++)
        if (line !== lines[unit]) nearest = Math.min(nearest, distanceTo(line));
      const own = Math.min(12, distanceTo(lines[unit] as number));
      atHome[unit] = Math.max(leastAtHome, Math.min(mostAtHome, nearest - own));
    }
  return atHome;
}

/** What holds of every note of the piece: notes beyond the number of lines speak against all, lines that move on their own speak for them. */
function surenessOfPiece({ context, texture }: Answered): number {
  return (
    fit.base +
    fit.surplus * (texture.sounding[context.lineCount + 1] ?? 0) +
    fit.independent * (texture.independent[context.lineCount] ?? 0) +
    (context.lengthsTell ? 0 : fit.lengthsTellNothing)
  );
}

/** How sure each unit's line is, 0 to 1: margins to other lines here and around, the strain of the place and the texture, weighed together. **Shape** one entry per unit. */
export function certaintyOf(answered: Answered): Float64Array {
  const { context, lattice, lines } = answered;
  const { units, lineCount } = context;
  const margins = marginsOf(lattice, units, lines);
  const onLine = leastOnLine(margins, lines, lineCount);
  const around = leastAround(margins, units);
  const strain = strainOf(units, lines, context);
  const fullness = fullnessOf(units, lines, context);
  const atHome = atHomeOf(answered);
  const ofPiece = surenessOfPiece(answered);
  const ofMargin = fit.margin + fit.marginWhereThin * (1 - fullness.share);
  return Float64Array.from(margins, (margin, unit) => {
    const ofPlace =
      ofMargin * halfAt(semitones(margin), tellingMargin) +
      fit.onLine * halfAt(semitones(onLine[unit]), tellingMargin) +
      fit.around * halfAt(semitones(around[unit]), tellingMarginAround) +
      fit.nearest * (strain.nearest[unit] as number) +
      fit.inChord * (strain.inChord[unit] as number) +
      fit.atHome * (atHome[unit] as number) +
      fit.awayFromFull * halfAt(fullness.away[unit] as number, tellingDistance);
    return Math.round(1000 * logistic(ofPiece + ofPlace)) / 1000;
  });
}
