import type { NoteId } from '../basis/ids.ts';
import type { Mark } from './split.ts';

type Entry = readonly [NoteId, Mark];

/** How many changed marks lie above the base before both are merged; near the root of a large song's note count. */
const overlayLimit = 256;

/** A map that shares a large base with its ancestors and holds its own few changes above it. */
class LayeredMarks implements ReadonlyMap<NoteId, Mark> {
  readonly size: number;
  readonly base: ReadonlyMap<NoteId, Mark>;
  readonly overlay: ReadonlyMap<NoteId, Mark>;

  constructor(base: ReadonlyMap<NoteId, Mark>, overlay: ReadonlyMap<NoteId, Mark>) {
    this.base = base;
    this.overlay = overlay;
    let added = 0;
    for (const note of overlay.keys()) if (!base.has(note)) added += 1;
    this.size = base.size + added;
  }

  get(note: NoteId): Mark | undefined {
    return this.overlay.get(note) ?? this.base.get(note);
  }

  has(note: NoteId): boolean {
    return this.overlay.has(note) || this.base.has(note);
  }

  forEach(visit: (mark: Mark, note: NoteId, map: ReadonlyMap<NoteId, Mark>) => void): void {
    for (const [note, mark] of this) visit(mark, note, this);
  }

  *entries(): MapIterator<[NoteId, Mark]> {
    for (const [note, mark] of this.base) yield [note, this.overlay.get(note) ?? mark];
    for (const [note, mark] of this.overlay) if (!this.base.has(note)) yield [note, mark];
    return undefined;
  }

  *keys(): MapIterator<NoteId> {
    for (const [note] of this) yield note;
    return undefined;
  }

  *values(): MapIterator<Mark> {
    for (const [, mark] of this) yield mark;
    return undefined;
  }

  [Symbol.iterator](): MapIterator<[NoteId, Mark]> {
    return this.entries();
  }
}

function merged(marks: ReadonlyMap<NoteId, Mark>, changed: readonly Entry[]): ReadonlyMap<NoteId, Mark> {
  const whole = new Map(marks);
  for (const [note, mark] of changed) whole.set(note, mark);
  return whole;
}

/** The marks with some written anew; the map given is left as it was and shares what did not change. */
export function withMarks(marks: ReadonlyMap<NoteId, Mark>, changed: readonly Entry[]): ReadonlyMap<NoteId, Mark> {
  if (changed.length === 0) return marks;
  const layered = marks instanceof LayeredMarks ? marks : new LayeredMarks(marks, new Map());
  if (layered.overlay.size + changed.length > overlayLimit) return merged(marks, changed);
  return new LayeredMarks(layered.base, merged(layered.overlay, changed));
}
