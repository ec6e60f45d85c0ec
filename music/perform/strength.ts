import type { DynamicLevel, Score, Technique } from '../score/score.ts';

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

interface Point {
  readonly atTicks: number;
  readonly strength: number;
}

/** Level marks and hairpin ends as points; a hairpin is a slope between its own two. */
export interface DynamicCurve {
  readonly points: readonly Point[];
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

/** The course of a score's dynamics. A hairpin leads to the level marked at its end, else by one step. */
export function dynamicCurveOf(score: Pick<Score, 'dynamics' | 'ticksPerQuarter'>): DynamicCurve {
  const levels = score.dynamics.filter((mark) => mark.kind === 'level');
  const points: Point[] = levels.map((mark) => ({ atTicks: mark.onsetTicks, strength: strengthOfLevel[mark.level] }));
  points.sort((a, b) => a.atTicks - b.atTicks);
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
      points.sort((a, b) => a.atTicks - b.atTicks);
    }
  }
  return { points, slopes };
}

/** How hard notes are played at this moment by the written dynamics alone. */
function strengthAt(curve: DynamicCurve, ticks: number): number {
  const slope = curve.slopes.findLast((each) => ticks >= each.startTicks && ticks < each.endTicks);
  if (slope === undefined) return levelAt(curve.points, ticks);
  return slope.from + ((slope.to - slope.from) * (ticks - slope.startTicks)) / (slope.endTicks - slope.startTicks);
}

const strengthOfTechnique: Partial<Readonly<Record<Technique, number>>> = {
  accent: 0.12,
  strongAccent: 0.18,
  tenuto: 0.02,
  hammerOn: -0.08,
  pullOff: -0.1,
  slide: -0.08,
};

/** Where in its bar a note falls, as far as stress goes. */
export type MetricPlace = 'bar' | 'beat' | 'between';
const strengthOfPlace: Readonly<Record<MetricPlace, number>> = { bar: 0.04, beat: 0.01, between: -0.02 };

/** How hard one note is played: written dynamics, its own signs, and its place in the bar. 0 to 1. */
export function strengthOf(
  curve: DynamicCurve,
  ticks: number,
  techniques: readonly Technique[],
  place: MetricPlace,
): number {
  const signs = techniques.reduce((sum, technique) => sum + (strengthOfTechnique[technique] ?? 0), 0);
  return bounded(strengthAt(curve, ticks) + signs + strengthOfPlace[place]);
}
