import { dynamicsByPlace } from '../lines/dynamics-of-notes.ts';
import { levelAfterAccent } from '../score/dynamics.ts';
import type { DynamicAccent, DynamicLevel, DynamicMark, Score, SoundingNote, Technique } from '../score/score.ts';

/** How hard each written dynamic is played, 0 to 1. Common practice, no source: even steps, closer together at the ends. */
const strengthOfLevel: Readonly<Record<DynamicLevel, number>> = {
  pppppp: 0.1,
  ppppp: 0.13,
  pppp: 0.17,
  ppp: 0.22,
  pp: 0.32,
  p: 0.43,
  mp: 0.53,
  mf: 0.62,
  f: 0.74,
  ff: 0.86,
  fff: 0.96,
  ffff: 0.98,
  fffff: 0.99,
  ffffff: 1,
};
const unmarkedStrength = strengthOfLevel.mf;
const hairpinStep = 0.12;

/** How much harder a note with a momentary sign is struck. Common practice, no source. */
const addedByAccent: Readonly<Record<DynamicAccent, number>> = {
  sf: 0.16,
  sfz: 0.16,
  sffz: 0.22,
  fz: 0.14,
  rf: 0.12,
  rfz: 0.12,
  sfp: 0.16,
  sfzp: 0.16,
  sfpp: 0.16,
  fp: 0.12,
  pf: 0,
};

interface Point {
  readonly atTicks: number;
  readonly strength: number;
}

/** Level marks and hairpin ends as points; a hairpin is a slope between its own two; a momentary sign adds to what is struck at its moment. */
interface DynamicCurve {
  readonly points: readonly Point[];
  readonly signs: ReadonlyMap<number, number>;
  readonly slopes: readonly {
    readonly startTicks: number;
    readonly endTicks: number;
    readonly from: number;
    readonly to: number;
  }[];
}

const bounded = (strength: number): number => Math.min(1, Math.max(0.05, strength));

function levelAt(points: readonly Point[], ticks: number): number {
  return points.findLast((point) => point.atTicks <= ticks)?.strength ?? unmarkedStrength;
}

const byTicks = (a: Point, b: Point): number => a.atTicks - b.atTicks;

/** Levels from their place on; the level after a sign such as fp from just after what is struck at it. */
function levelPointsOf({ dynamics }: Pick<Score, 'dynamics'>): Point[] {
  return dynamics
    .flatMap((mark): readonly Point[] => {
      if (mark.kind === 'level') return [{ atTicks: mark.onsetTicks, strength: strengthOfLevel[mark.level] }];
      const then = mark.kind === 'accent' ? levelAfterAccent[mark.sign] : null;
      return then === null ? [] : [{ atTicks: mark.onsetTicks + 1, strength: strengthOfLevel[then] }];
    })
    .sort(byTicks);
}

/** The course of some dynamics. A hairpin leads to the level marked at its end, else by one step. */
function dynamicCurveOf(score: Pick<Score, 'dynamics' | 'ticksPerQuarter'>): DynamicCurve {
  const points = levelPointsOf(score);
  const slopes = [];
  const hairpins = score.dynamics.filter((mark) => mark.kind === 'hairpin' && mark.endTicks > mark.onsetTicks);
  for (const mark of hairpins.sort((a, b) => a.onsetTicks - b.onsetTicks)) {
    if (mark.kind !== 'hairpin') continue;
    const from = levelAt(points, mark.onsetTicks);
    const goal = points.find(
      (point) => point.atTicks >= mark.endTicks && point.atTicks <= mark.endTicks + score.ticksPerQuarter,
    );
    const to = goal?.strength ?? bounded(from + (mark.direction === 'louder' ? hairpinStep : -hairpinStep));
    slopes.push({ startTicks: mark.onsetTicks, endTicks: mark.endTicks, from, to });
    if (goal === undefined) {
      points.push({ atTicks: mark.endTicks, strength: to });
      points.sort(byTicks);
    }
  }
  return { points, slopes, signs: signsOf(score) };
}

function signsOf({ dynamics }: Pick<Score, 'dynamics'>): ReadonlyMap<number, number> {
  const signs = new Map<number, number>();
  for (const mark of dynamics) if (mark.kind === 'accent') signs.set(mark.onsetTicks, addedByAccent[mark.sign]);
  return signs;
}

/** For each note the course of the dynamics that are for its part and staff, and of those for all. */
export function dynamicCurvesOf(
  score: Pick<Score, 'dynamics' | 'ticksPerQuarter'>,
): (note: SoundingNote) => DynamicCurve {
  const { dynamics, ticksPerQuarter } = score;
  const dynamicsOf = dynamicsByPlace(dynamics);
  const curves = new Map<readonly DynamicMark[], DynamicCurve>();
  return (note) => {
    const own = dynamicsOf([note]);
    const curve = curves.get(own) ?? dynamicCurveOf({ dynamics: own, ticksPerQuarter });
    curves.set(own, curve);
    return curve;
  };
}

/** How hard notes are played at this moment by the written dynamics alone. */
function strengthAt(curve: DynamicCurve, ticks: number): number {
  const slope = curve.slopes.findLast((each) => ticks >= each.startTicks && ticks < each.endTicks);
  if (slope === undefined) return levelAt(curve.points, ticks);
  return slope.from + ((slope.to - slope.from) * (ticks - slope.startTicks)) / (slope.endTicks - slope.startTicks);
}

/** Signs of stress on the note itself. */
const stressOfTechnique: Partial<Readonly<Record<Technique, number>>> = {
  accent: 0.12,
  strongAccent: 0.18,
  tenuto: 0.02,
};

/** What is not plucked is softer, however it is stressed. */
const softerWhenJoined: Partial<Readonly<Record<Technique, number>>> = { hammerOn: -0.08, pullOff: -0.1, slide: -0.08 };

/** Where in its bar a note falls, as far as stress goes. */
export type MetricPlace = 'bar' | 'beat' | 'between';
const stressOfPlace: Readonly<Record<MetricPlace, number>> = { bar: 0.04, beat: 0.01, between: -0.02 };

/** What strength hangs on besides the dynamics: the note's own signs and its place; and how much of dynamics and stress is wanted, 1 as written. */
export interface StrengthOrder {
  readonly ticks: number;
  readonly techniques: readonly Technique[];
  readonly place: MetricPlace;
  readonly dynamicsShare: number;
  readonly stressShare: number;
}

const summed = (table: Partial<Readonly<Record<Technique, number>>>, techniques: readonly Technique[]): number =>
  techniques.reduce((sum, technique) => sum + (table[technique] ?? 0), 0);

/** How hard one note is played: written dynamics about mf, its own signs, and its place in the bar. 0 to 1. */
export function strengthOf(curve: DynamicCurve, order: StrengthOrder): number {
  const { ticks, techniques, place, dynamicsShare, stressShare } = order;
  const level = strengthAt(curve, ticks);
  const dynamics = dynamicsShare === 1 ? level : unmarkedStrength + (level - unmarkedStrength) * dynamicsShare;
  const signs = summed(stressOfTechnique, techniques) + stressOfPlace[place] + (curve.signs.get(ticks) ?? 0);
  return bounded(dynamics + signs * stressShare + summed(softerWhenJoined, techniques));
}
