import type { PartId } from '../../basis/ids.ts';
import type { Bar, DynamicMark, Rest, TempoMark } from '../../score/score.ts';
import type { PartLayout } from './part-layout.ts';
import { staffKindOf, type RawDynamic, type RawMoment, type RawPart } from './raw-part.ts';

const ticksOf = (moment: RawMoment, bars: readonly Bar[]): number =>
  (bars[moment.barIndex]?.onsetTicks ?? 0) + moment.offsetTicks;

const byOnset = (a: { readonly onsetTicks: number }, b: { readonly onsetTicks: number }): number =>
  a.onsetTicks - b.onsetTicks;

/** The tempos of all parts in order of time, one at each moment. */
export function temposOf(parts: readonly RawPart[], bars: readonly Bar[]): TempoMark[] {
  const byTicks = new Map<number, TempoMark>();
  for (const tempo of parts.flatMap((part) => part.tempos)) {
    const onsetTicks = ticksOf(tempo, bars);
    if (!byTicks.has(onsetTicks)) byTicks.set(onsetTicks, { onsetTicks, quartersPerMinute: tempo.quartersPerMinute });
  }
  return [...byTicks.values()].sort(byOnset);
}

function dynamicsOfPart(dynamics: readonly RawDynamic[], bars: readonly Bar[]): DynamicMark[] {
  const found: DynamicMark[] = [];
  const open = new Map<string, { onsetTicks: number; direction: 'louder' | 'softer' }>();
  for (const { mark, ...moment } of dynamics) {
    const ticks = ticksOf(moment, bars);
    if (mark.kind === 'level') found.push({ kind: 'level', onsetTicks: ticks, level: mark.level });
    else if (mark.kind === 'accent') found.push({ kind: 'accent', onsetTicks: ticks, sign: mark.sign });
    else if (mark.kind === 'hairpinStart') open.set(mark.number, { onsetTicks: ticks, direction: mark.direction });
    else {
      const start = open.get(mark.number);
      open.delete(mark.number);
      if (start !== undefined && ticks > start.onsetTicks) found.push({ kind: 'hairpin', ...start, endTicks: ticks });
    }
  }
  return found;
}

/** The dynamics of all parts in order of time, each with the parts that it is for where several sound; tablature that copies a part speaks for that part. What several parts say at once stands once. */
export function dynamicsOf(layouts: readonly PartLayout[], bars: readonly Bar[]): DynamicMark[] {
  const sounding = layouts.filter(({ chains, part }) => part.pairedWith === null && chains.length > 0);
  const found = new Map<string, { readonly mark: DynamicMark; readonly parts: Set<PartId> }>();
  for (const { raw, part } of layouts)
    for (const mark of dynamicsOfPart(raw.dynamics, bars)) {
      const key = JSON.stringify(mark);
      const said = found.get(key) ?? { mark, parts: new Set<PartId>() };
      found.set(key, said);
      said.parts.add(part.pairedWith ?? part.id);
    }
  const marks = [...found.values()].map(({ mark, parts }): DynamicMark =>
    sounding.every(({ part }) => parts.has(part.id)) ? mark : { ...mark, parts: [...parts] },
  );
  return marks.sort(byOnset);
}

/** The rests of all parts in order of time; those of tablature that copies notation are left out. */
export function restsOf(layouts: readonly PartLayout[], bars: readonly Bar[]): Rest[] {
  return layouts
    .flatMap(({ raw, part }) => {
      if (part.pairedWith !== null) return [];
      const hasNotation = part.staves.some((kind) => kind !== 'tablature');
      const kept = hasNotation ? raw.rests.filter((rest) => staffKindOf(raw, rest.staff) !== 'tablature') : raw.rests;
      return kept.flatMap((rest): Rest[] => {
        const bar = bars[rest.barIndex];
        if (bar === undefined) return [];
        const voice = { part: part.id, staff: rest.staff, voice: rest.voice, stem: null };
        return [{ bar: bar.id, voice, onsetTicks: bar.onsetTicks + rest.offsetTicks, lengthTicks: rest.lengthTicks }];
      });
    })
    .sort(byOnset);
}
