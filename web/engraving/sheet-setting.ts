import type { Bar, BarId } from '../../music/index.ts';
import { planSystems, type SystemPlan } from './plan-systems.ts';
import type { StripMeasures } from './strip.ts';

/** How a sheet of a given width sets its music. */
export function settingFor(width: number): Omit<StripMeasures, 'width'> {
  const isNarrow = width < 620;
  return isNarrow
    ? { inset: 44, zoom: 0.86, eyes: { centreX: -26, height: 29, spacing: 32 }, thickness: 2.6 }
    : { inset: 72, zoom: 1, eyes: { centreX: -44, height: 36, spacing: 36 }, thickness: 3.1 };
}

const rightMargin = 10;

/** Bars broken into systems for a sheet of a given width, each with the width that it is to fill. */
export function setSystems(
  bars: readonly Bar[],
  slices: ReadonlyMap<BarId, number>,
  sheetWidth: number,
  { inset, zoom }: Pick<StripMeasures, 'inset' | 'zoom'> = settingFor(sheetWidth),
): readonly { readonly plan: SystemPlan; readonly width: number }[] {
  const width = sheetWidth - inset - rightMargin;
  const opening = 62 * zoom;
  const plans = planSystems(bars, slices, { width: width - opening, perSlice: 33 * zoom, perBar: 22 * zoom });
  return plans.map((plan) => ({ plan, width: Math.min(width, (plan.neededWidth + opening) * 1.5) }));
}
