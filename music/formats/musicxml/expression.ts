import type { PartId } from '../../basis/ids.ts';
import type { Bar, DynamicMark, Rest, TempoMark } from '../../score/score.ts';
import type { PartLayout } from './part-layout.ts';
import { staffKindOf, type RawDynamic, type RawMoment, type RawPart, type RawTempo } from './raw-part.ts';

const ticksOf = (moment: RawMoment, bars: readonly Bar[]): number =>
  (bars[moment.barIndex]?.onsetTicks ?? 0) + moment.offsetTicks;

const byOnset = (a: { readonly onsetTicks: number }, b: { readonly onsetTicks: number }): number =>
  a.onsetTicks - b.onsetTicks;

/** What is believed first where several tell a tempo at one moment: what is to be heard, then what is drawn. */
const tempoRanks: Readonly<Record<RawTempo['tempo']['kind'], number>> = { sound: 0, metronome: 1, equation: 2 };

/** What an equation of note values starts from where no tempo stands before it. **Units** quarter notes a minute. **Source** Standard MIDI Files 1.0: 120 where nothing is set. */
const tempoBeforeAll = 120;

/** The tempos of one part by their moments: of several at one moment the one that is believed, of equals the last. */
function tempoByTicks({ tempos }: RawPart, bars: readonly Bar[]): Map<number, RawTempo['tempo']> {
  const byTicks = new Map<number, RawTempo['tempo']>();
  for (const { tempo, ...moment } of tempos) {
    const ticks = ticksOf(moment, bars);
    const known = byTicks.get(ticks);
    if (known === undefined || tempoRanks[tempo.kind] <= tempoRanks[known.kind]) byTicks.set(ticks, tempo);
  }
  return byTicks;
}

/** The tempos of all parts in order of time, one at each moment; where parts differ, that of the first is believed. */
export function temposOf(parts: readonly RawPart[], bars: readonly Bar[]): TempoMark[] {
  const byTicks = new Map<number, RawTempo['tempo']>();
  for (const [ticks, tempo] of parts.flatMap((part) => [...tempoByTicks(part, bars)])) {
    const known = byTicks.get(ticks);
    if (known === undefined || tempoRanks[tempo.kind] < tempoRanks[known.kind]) byTicks.set(ticks, tempo);
  }
  let quartersPerMinute = tempoBeforeAll;
  return [...byTicks]
    .sort(([a], [b]) => a - b)
    .map(([onsetTicks, tempo]) => {
      quartersPerMinute = tempo.kind === 'equation' ? quartersPerMinute * tempo.factor : tempo.quartersPerMinute;
      return { onsetTicks, quartersPerMinute };
    });
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
