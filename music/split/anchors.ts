import type { Profile } from './costs.ts';
import { wholeShare } from './prices.ts';
import { stillSounding } from './sounding.ts';
import type { UnitTable } from './units.ts';

/** How fast the opinion of a full moment fades: at this distance it counts half. **Units** quarter notes. */
const halfLifeQuarters = 8;
/** How much the whole piece's mean counts beside the full moments near by. */
const globalWeight = 0.5;
/** Where this share of the moments is full, anchors are believed in full. */
const wellAnchored = 1 / 1.3;

interface Anchors {
  /** Whether as many notes sound at the moment as there are lines. */
  readonly isFull: Uint8Array;
  /** **Shape** indexed `moment × lineCount + line`. */
  readonly pitch: Int16Array;
}

/** The moments at which every line sounds, with the pitch of each from high to low. */
function fullMoments(units: UnitTable, lineCount: number): Anchors {
  const momentCount = units.momentStart.length - 1;
  const isFull = new Uint8Array(momentCount);
  const pitch = new Int16Array(momentCount * lineCount);
  let active: number[] = [];
  for (let moment = 0; moment < momentCount; moment++) {
    const from = units.momentStart[moment] as number;
    const to = units.momentStart[moment + 1] as number;
    active = stillSounding(active, units.heardUntil, units.onset[from] as number);
    for (let unit = from; unit < to; unit++) active.push(unit);
    if (active.length !== lineCount) continue;
    isFull[moment] = 1;
    pitch.set(
      active.map((unit) => units.top[unit] as number).sort((a, b) => b - a),
      moment * lineCount,
    );
  }
  return { isFull, pitch };
}

function sweep(
  units: UnitTable,
  lineCount: number,
  ticksPerQuarter: number,
  anchors: Anchors,
  step: 1 | -1,
  sums: Float64Array,
  weights: Float64Array,
): void {
  const momentCount = anchors.isFull.length;
  const running = new Float64Array(lineCount);
  let weight = 0;
  let before = -1;
  for (let moment = step === 1 ? 0 : momentCount - 1; moment >= 0 && moment < momentCount; moment += step) {
    const now = units.onset[units.momentStart[moment] as number] as number;
    const fade = before < 0 ? 1 : 1 / (1 + Math.abs(now - before) / (halfLifeQuarters * ticksPerQuarter));
    before = now;
    weight = weight * fade + (anchors.isFull[moment] as number);
    weights[moment] = (weights[moment] as number) + weight;
    for (let line = 0; line < lineCount; line++) {
      const cell = moment * lineCount + line;
      running[line] =
        (running[line] as number) * fade + (anchors.isFull[moment] === 1 ? (anchors.pitch[cell] as number) : 0);
      sums[cell] = (sums[cell] as number) + (running[line] as number);
    }
  }
}

/**
 * Where full texture puts each line at each moment, looking both ways; null where the texture is never full.
 * **Source** Chew and Wu, Separating voices in polyphonic music: a contig mapping approach, CMMR 2004 (maximal contigs as anchors).
 */
export function anchoredProfile(units: UnitTable, lineCount: number, ticksPerQuarter: number): Profile | null {
  const anchors = fullMoments(units, lineCount);
  const momentCount = anchors.isFull.length;
  const full = anchors.isFull.reduce((sum, is) => sum + is, 0);
  if (full === 0 || lineCount === 1) return null;
  const sums = new Float64Array(momentCount * lineCount);
  const weights = new Float64Array(momentCount);
  sweep(units, lineCount, ticksPerQuarter, anchors, 1, sums, weights);
  sweep(units, lineCount, ticksPerQuarter, anchors, -1, sums, weights);
  const means = new Float64Array(lineCount);
  for (let cell = 0; cell < anchors.pitch.length; cell++)
    means[cell % lineCount] = (means[cell % lineCount] as number) + (anchors.pitch[cell] as number);
  const pitch = new Int32Array(momentCount * lineCount);
  for (let cell = 0; cell < pitch.length; cell++) {
    const mean = (means[cell % lineCount] as number) / full;
    const weight = weights[Math.floor(cell / lineCount)] as number;
    pitch[cell] = Math.round((16 * ((sums[cell] as number) + globalWeight * mean)) / (weight + globalWeight));
  }
  return { pitch, trust: Math.round(wholeShare * Math.min(1, full / (wellAnchored * momentCount))) };
}
