import type { NoteId } from '../basis/ids.ts';
import type { Mark } from './split.ts';

type Entry = readonly [NoteId, Mark];
type Bucket = ReadonlyMap<NoteId, Mark>;

const notesPerBucket = 16;
const crowdedBucket = 64;
const emptyBucket: Bucket = new Map();

/** A number that scatters ids over the buckets. **Source** FNV-1a, Fowler, Noll and Vo. */
function scatter(note: string): number {
  let hash = 0x811c9dc5;
  for (let index = 0; index < note.length; index += 1) hash = Math.imul(hash ^ note.charCodeAt(index), 0x01000193);
  return (hash ^ (hash >>> 15)) >>> 0;
}

/** A map in many small buckets: a changed copy shares all but those that changed. */
class BucketedMarks implements ReadonlyMap<NoteId, Mark> {
  readonly size: number;
  readonly buckets: readonly Bucket[];

  constructor(buckets: readonly Bucket[], size: number) {
    this.buckets = buckets;
    this.size = size;
  }

  indexOf(note: NoteId): number {
    return scatter(note) % this.buckets.length;
  }

  get(note: NoteId): Mark | undefined {
    return this.buckets[this.indexOf(note)]?.get(note);
  }

  has(note: NoteId): boolean {
    return this.get(note) !== undefined;
  }

  forEach(visit: (mark: Mark, note: NoteId, map: ReadonlyMap<NoteId, Mark>) => void): void {
    for (const [note, mark] of this) visit(mark, note, this);
  }

  *entries(): MapIterator<[NoteId, Mark]> {
    for (const bucket of this.buckets) yield* bucket;
    return undefined;
  }

  *keys(): MapIterator<NoteId> {
    for (const bucket of this.buckets) yield* bucket.keys();
    return undefined;
  }

  *values(): MapIterator<Mark> {
    for (const bucket of this.buckets) yield* bucket.values();
    return undefined;
  }

  [Symbol.iterator](): MapIterator<[NoteId, Mark]> {
    return this.entries();
  }
}

/** The buckets with these marks written; each bucket is copied once, and only if it changes. */
function written(marks: BucketedMarks, changed: readonly Entry[]): BucketedMarks {
  const buckets = [...marks.buckets];
  const copied = new Map<number, Map<NoteId, Mark>>();
  let size = marks.size;
  for (const [note, mark] of changed) {
    const index = marks.indexOf(note);
    const bucket = copied.get(index) ?? new Map(buckets[index]);
    if (!bucket.has(note)) size += 1;
    bucket.set(note, mark);
    copied.set(index, bucket);
    buckets[index] = bucket;
  }
  return new BucketedMarks(buckets, size);
}

function bucketed(marks: ReadonlyMap<NoteId, Mark>, extra: number): BucketedMarks {
  const count = Math.max(16, Math.ceil((marks.size + extra) / notesPerBucket));
  return written(new BucketedMarks(new Array<Bucket>(count).fill(emptyBucket), 0), [...marks]);
}

/** The marks with some written anew; the map given is left as it was and shares what did not change. Their order tells nothing. */
export function withMarks(marks: ReadonlyMap<NoteId, Mark>, changed: readonly Entry[]): ReadonlyMap<NoteId, Mark> {
  if (changed.length === 0) return marks;
  const isRoomy = marks instanceof BucketedMarks && marks.size + changed.length <= crowdedBucket * marks.buckets.length;
  return written(isRoomy ? marks : bucketed(marks, changed.length), changed);
}
