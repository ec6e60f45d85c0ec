import { barAtTicks, unitsAtTicks, type MidiBar } from './bar-map.ts';
import {
  gridOfBeat,
  isDivided,
  isOnSomeGrid,
  isSwungPair,
  nearestOnGrid,
  type BeatFamily,
  type BeatGrid,
  type GridKind,
} from './beat-grid.ts';
import { unitsPerQuarter } from './bar-map.ts';
import type { PlayedNote } from './pair-notes.ts';
import { percussionChannel } from './percussion-key.ts';
import { pulsesOf, type Pulse } from './pulses.ts';

/** A note on the grid. **Units** `unitsPerQuarter` to a quarter, from the start of the piece. */
export interface GridNote {
  readonly midi: number;
  readonly velocity: number;
  readonly startTicks: number;
  readonly startUnits: number;
  readonly endUnits: number;
}

/** How a run of bars was read. Bars count from 1 in written order. */
export interface GridRegion {
  readonly firstBar: number;
  readonly lastBar: number;
  readonly kind: 'straight' | 'triplet' | 'swing' | 'mixed';
}

/** The notes of each part on the grid, and the grid. */
export interface Quantised {
  readonly parts: readonly (readonly GridNote[])[];
  readonly regions: readonly GridRegion[];
  /** Onsets that were moved by more than the file's own resolution. */
  readonly movedOnsets: number;
  readonly movedEnds: number;
}

/** How far from the grid people play. **Units** quarter notes. **Source** none: about 20 ms at 120 a minute. */
const loosenessQuarters = 0.04;

/** All pulses of a piece with a quick way to the one around a moment. */
class PulseMap {
  readonly byBar: readonly (readonly Pulse[])[];
  private readonly bars: readonly MidiBar[];

  constructor(bars: readonly MidiBar[]) {
    this.bars = bars;
    this.byBar = bars.map(pulsesOf);
  }

  /** The pulse around a moment and the moment's place in it, from 0 to 1. */
  at(ticks: number): { readonly pulse: Pulse; readonly place: number } | null {
    const bar = barAtTicks(this.bars, ticks);
    const units = unitsAtTicks(this.bars, ticks);
    const pulses = bar === undefined ? [] : (this.byBar[bar.index] ?? []);
    const pulse = pulses.findLast(({ startUnits }) => startUnits <= units) ?? pulses[0];
    return pulse === undefined ? null : { pulse, place: (units - pulse.startUnits) / pulse.lengthUnits };
  }
}

const toleranceOf = (pulse: Pulse, toleranceQuarters: number): number =>
  (toleranceQuarters * unitsPerQuarter) / pulse.lengthUnits;
const loosenessOf = (pulse: Pulse): number => (loosenessQuarters * unitsPerQuarter) / pulse.lengthUnits;

/** The share of moments that lie on some grid. */
function shareOnGrid(map: PulseMap, moments: readonly number[], toleranceQuarters: number): number {
  if (moments.length === 0) return 1;
  const exact = moments.filter((ticks) => {
    const found = map.at(ticks);
    return (
      found !== null && isOnSomeGrid(found.place, toleranceOf(found.pulse, toleranceQuarters), found.pulse.isCompound)
    );
  });
  return exact.length / moments.length;
}

type Places = ReadonlyMap<Pulse, readonly number[]>;

function placesByPulse(map: PulseMap, moments: Iterable<number>): Map<Pulse, number[]> {
  const places = new Map<Pulse, number[]>();
  for (const ticks of moments) {
    const found = map.at(ticks);
    if (found === null) continue;
    const known = places.get(found.pulse);
    if (known === undefined) places.set(found.pulse, [found.place]);
    else known.push(found.place);
  }
  return places;
}

/** Fewest swung beats that make swing, how much of the divided beats they must be, and how many bars to either side are asked. **Source** none: chosen by us. */
const leastSwung = 6;
const leastShare = 0.75;
const barsAround = 4;

/** The bars whose surroundings are swung: nearly all beats that are divided are a long and a short note. */
function swungBars(map: PulseMap, all: Places): ReadonlySet<number> {
  const counts = map.byBar.map((pulses) => {
    const simple = pulses.filter((pulse) => !pulse.isCompound);
    const divided = simple.filter((pulse) => isDivided(all.get(pulse) ?? [], loosenessOf(pulse)));
    const pairs = divided.filter((pulse) => isSwungPair(all.get(pulse) ?? [], loosenessOf(pulse)));
    return { divided: divided.length, swung: pairs.length };
  });
  const swung = new Set<number>();
  for (const index of counts.keys()) {
    const around = counts.slice(Math.max(0, index - barsAround), index + barsAround + 1);
    const pairs = around.reduce((sum, count) => sum + count.swung, 0);
    const divided = around.reduce((sum, count) => sum + count.divided, 0);
    if (pairs >= leastSwung && pairs >= leastShare * divided) swung.add(index);
  }
  return swung;
}

function kindOfBar(families: ReadonlySet<BeatFamily>): GridRegion['kind'] | null {
  if (families.has('swing')) return 'swing';
  if (families.size === 0) return null;
  if (families.size > 1 || families.has('odd')) return 'mixed';
  return families.has('triplet') ? 'triplet' : 'straight';
}

/** Runs of bars that were read alike; bars without divided beats go with what is before them. */
function regionsOf(kinds: readonly (GridRegion['kind'] | null)[]): GridRegion[] {
  const first = kinds.find((kind) => kind !== null) ?? 'straight';
  const regions: GridRegion[] = [];
  for (const [index, kind] of kinds.entries()) {
    const last = regions.at(-1);
    const here = kind ?? last?.kind ?? first;
    if (last?.kind === here) regions[regions.length - 1] = { ...last, lastBar: index + 1 };
    else regions.push({ firstBar: index + 1, lastBar: index + 1, kind: here });
  }
  return regions;
}

interface Reading {
  readonly map: PulseMap;
  readonly toleranceQuarters: number;
  readonly areOnsetsClean: boolean;
  readonly areEndsClean: boolean;
  readonly kindOf: (pulse: Pulse) => GridKind;
}

function gridsOf(places: Places, reading: Reading): Map<Pulse, BeatGrid> {
  const grids = new Map<Pulse, BeatGrid>();
  for (const [pulse, moments] of places) {
    const beat = {
      places: moments,
      tolerance: toleranceOf(pulse, reading.toleranceQuarters),
      looseness: loosenessOf(pulse),
      isCompound: pulse.isCompound,
      isClean: reading.areOnsetsClean,
    };
    grids.set(pulse, gridOfBeat(beat, reading.kindOf(pulse)));
  }
  return grids;
}

/** Quantises the notes of one part. */
class PartQuantiser {
  readonly families = new Map<number, Set<BeatFamily>>();
  movedOnsets = 0;
  movedEnds = 0;
  private readonly reading: Reading;
  private readonly grids: Map<Pulse, BeatGrid>;
  private readonly endGrids: Map<Pulse, BeatGrid>;

  constructor(reading: Reading, notes: readonly PlayedNote[]) {
    this.reading = reading;
    const onsets = notes.map(({ startTicks }) => startTicks);
    this.grids = gridsOf(placesByPulse(reading.map, onsets), reading);
    const ends = reading.areEndsClean ? [...onsets, ...notes.map(({ endTicks }) => endTicks)] : onsets;
    this.endGrids = gridsOf(placesByPulse(reading.map, ends), reading);
    for (const [pulse, grid] of this.grids) if (grid.parts > 1) this.familiesOf(pulse).add(grid.family);
  }

  private familiesOf({ bar }: Pulse): Set<BeatFamily> {
    const families = this.families.get(bar.index) ?? new Set<BeatFamily>();
    this.families.set(bar.index, families);
    return families;
  }

  private place(ticks: number, grids: Map<Pulse, BeatGrid>): { readonly units: number; readonly moved: boolean } {
    const found = this.reading.map.at(ticks);
    if (found === null) return { units: 0, moved: true };
    const { pulse, place } = found;
    const grid = grids.get(pulse) ?? { parts: pulse.isCompound ? 3 : 4, family: 'straight' };
    const nearest = nearestOnGrid(Math.min(1, place), grid);
    const moved = Math.abs(nearest - place) > toleranceOf(pulse, this.reading.toleranceQuarters);
    return { units: pulse.startUnits + Math.round(nearest * pulse.lengthUnits), moved };
  }

  /** A hit has no length of its own: it is written up to the next one, within its beat. */
  private endOfHit({ startTicks }: PlayedNote, startUnits: number, nextUnits: number): number {
    const pulse = this.reading.map.at(startTicks)?.pulse;
    const end = pulse === undefined ? Infinity : pulse.startUnits + pulse.lengthUnits;
    return Math.min(nextUnits, end > startUnits ? end : startUnits + unitsPerQuarter);
  }

  private endOf(note: PlayedNote, startUnits: number, nextUnits: number): number {
    if (note.channel === percussionChannel) return this.endOfHit(note, startUnits, nextUnits);
    const { units, moved } = this.place(note.endTicks, this.endGrids);
    const shortest = unitsPerQuarter / 16;
    if (note.endTicks <= note.startTicks) return Math.min(startUnits + unitsPerQuarter / 4, nextUnits);
    if (!moved || this.reading.areEndsClean) return Math.max(units, startUnits + shortest);
    const gap = nextUnits - units;
    const isHeld = gap >= 0 ? gap <= Math.min(unitsPerQuarter / 2, units - startUnits) : -gap <= unitsPerQuarter / 8;
    const cleaned = isHeld && nextUnits > startUnits ? nextUnits : units;
    return Math.max(cleaned, startUnits + Math.min(unitsPerQuarter / 4, Math.max(shortest, nextUnits - startUnits)));
  }

  notesOf(notes: readonly PlayedNote[]): GridNote[] {
    const starts = notes.map(({ startTicks }) => this.place(startTicks, this.grids));
    const onsets = [...new Set(starts.map(({ units }) => units))].sort((a, b) => a - b);
    const following = new Map(onsets.map((units, index) => [units, onsets[index + 1] ?? Infinity]));
    return notes.map((note, index) => {
      const { units, moved } = starts[index] ?? { units: 0, moved: true };
      const endUnits = this.endOf(note, units, following.get(units) ?? Infinity);
      if (moved) this.movedOnsets += 1;
      const hasOwnEnd = note.channel !== percussionChannel;
      if (hasOwnEnd && this.place(note.endTicks, this.endGrids).moved) this.movedEnds += 1;
      const { midi, velocity, startTicks } = note;
      return { midi, velocity, startTicks, startUnits: units, endUnits };
    });
  }
}

const leastClean = 0.95;

/** The notes of every part on the grid that each beat asks for, or on the one that is asked for. */
export function quantise(
  parts: readonly (readonly PlayedNote[])[],
  bars: readonly MidiBar[],
  ticksPerQuarter: number,
  kind: GridKind,
): Quantised {
  const map = new PulseMap(bars);
  const toleranceQuarters = (ticksPerQuarter >= 240 ? 1.01 : 0.51) / ticksPerQuarter;
  const onsets = parts.flatMap((notes) => notes.map(({ startTicks }) => startTicks));
  const pitched = parts.flat().filter(({ channel }) => channel !== percussionChannel);
  const ends = pitched.map(({ endTicks }) => endTicks);
  const isSwung = kind === 'auto' ? swungBars(map, placesByPulse(map, new Set(onsets))) : new Set<number>();
  const reading: Reading = {
    map,
    toleranceQuarters,
    areOnsetsClean: shareOnGrid(map, onsets, toleranceQuarters) >= leastClean,
    areEndsClean: shareOnGrid(map, ends, toleranceQuarters) >= leastClean,
    kindOf: ({ bar }) => (isSwung.has(bar.index) ? 'swing' : kind),
  };
  const quantisers = parts.map((notes) => new PartQuantiser(reading, notes));
  const quantised = parts.map((notes, index) => quantisers[index]?.notesOf(notes) ?? []);
  const kinds = bars.map(({ index }) =>
    kindOfBar(new Set(quantisers.flatMap(({ families }) => [...(families.get(index) ?? [])]))),
  );
  return {
    parts: quantised,
    regions: regionsOf(kinds),
    movedOnsets: quantisers.reduce((sum, one) => sum + one.movedOnsets, 0),
    movedEnds: quantisers.reduce((sum, one) => sum + one.movedEnds, 0),
  };
}
