import type { AbcBar, AbcChange, AbcEvent, AbcVoice } from './abc-events.ts';

/** The slurs of a voice whose bars are copied: the next free name, and those that reach out of a copy. */
export interface SlurIds {
  next: number;
  readonly unended: Set<number>;
}

/** How a copy stands among others: whether it must say again what is in force, and whether ties may reach into it and out of it. */
export interface CopyPlace {
  readonly restates: boolean;
  readonly joinsBefore: boolean;
  readonly joinsAfter: boolean;
  readonly ids: SlurIds;
}

/** The key, meter and clef at the start of a bar. */
function inForce({ bars, clef }: AbcVoice, from: number): AbcChange {
  const before = bars.slice(0, from).flatMap(({ changes }) => changes);
  const key = before.findLast((change) => change.key !== undefined)?.key;
  const meter = before.findLast((change) => change.meter !== undefined)?.meter;
  const there = before.findLast((change) => change.clef !== undefined)?.clef ?? clef;
  return {
    eventIndex: 0,
    ...(key === undefined ? {} : { key }),
    ...(meter === undefined ? {} : { meter }),
    ...(there === null ? {} : { clef: there }),
  };
}

const untied = (event: AbcEvent, side: 'isTiedOn' | 'isTiedFromBefore'): AbcEvent => ({
  ...event,
  notes: event.notes.map((note) => ({ ...note, [side]: false })),
});

/** Gives each slur of the copy a name of its own; one that is not whole within it is left open. */
function renamer(events: readonly AbcEvent[], ids: SlurIds): (slur: number) => number {
  const stops = new Set(events.flatMap(({ slurStops }) => slurStops));
  const starts = new Set(events.flatMap(({ slurStarts }) => slurStarts));
  const names = new Map<number, number>();
  return (slur) => {
    const known = names.get(slur);
    if (known !== undefined) return known;
    const name = ids.next;
    ids.next += 1;
    names.set(slur, name);
    if (!stops.has(slur) || !starts.has(slur)) ids.unended.add(name);
    return name;
  };
}

/** The bars from one index to another once more: what is in force there is said again, and ties that would reach elsewhere than they did are cut. */
export function copiedBars(
  voice: AbcVoice,
  from: number,
  to: number,
  { restates, joinsBefore, joinsAfter, ids }: CopyPlace,
): AbcBar[] {
  const bars = voice.bars.slice(from, to);
  const renamed = renamer(
    bars.flatMap(({ layers }) => layers.flat()),
    ids,
  );
  const restated = restates ? [inForce(voice, from)] : [];
  return bars.map((bar, index) => {
    const isFirst = index === 0 && !joinsBefore;
    const isLast = index === bars.length - 1 && !joinsAfter;
    const layers = bar.layers.map((layer) =>
      layer.map((event, place) => {
        const own = {
          ...event,
          slurStarts: event.slurStarts.map(renamed),
          slurStops: event.slurStops.map(renamed),
        };
        const opened = isFirst && place === 0 ? untied(own, 'isTiedFromBefore') : own;
        return isLast && place === layer.length - 1 ? untied(opened, 'isTiedOn') : opened;
      }),
    );
    return { ...bar, layers, changes: [...(index === 0 ? restated : []), ...bar.changes] };
  });
}
