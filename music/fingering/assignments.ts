import type { Fingerboard } from '../score/score.ts';
import { gripOf } from './hand.ts';

/** The notes of one moment on their strings: a place for each note, or null for one that finds none. */
export interface Assignment {
  readonly places: readonly (Fingerboard | null)[];
  /** How many notes find no place. */
  readonly missing: number;
  /** By itself, wherever the hand was. */
  readonly cost: number;
}

/** How many ways of one moment are looked at. */
const mostAssignments = 48;
const mostSteps = 4_000;

/** Tries the places of one note after the other, each string once. */
class Search {
  readonly found: (Fingerboard | null)[][] = [];
  private readonly chosen: (Fingerboard | null)[] = [];
  private readonly taken = new Set<number>();
  private steps = 0;
  private readonly options: readonly (readonly Fingerboard[])[];
  private readonly mostMissing: number;

  constructor(options: readonly (readonly Fingerboard[])[], mostMissing: number) {
    this.options = options;
    this.mostMissing = mostMissing;
  }

  run(index = 0, missing = 0): void {
    this.steps += 1;
    if (this.steps > mostSteps) return;
    const options = this.options[index];
    if (options === undefined) {
      this.found.push([...this.chosen]);
      return;
    }
    for (const place of options) {
      if (this.taken.has(place.string)) continue;
      this.taken.add(place.string);
      this.chosen.push(place);
      this.run(index + 1, missing);
      this.chosen.pop();
      this.taken.delete(place.string);
    }
    if (missing >= this.mostMissing) return;
    this.chosen.push(null);
    this.run(index + 1, missing + 1);
    this.chosen.pop();
  }
}

function costOf(places: readonly (Fingerboard | null)[], stringCount: number): number {
  const stopped = Array.from({ length: stringCount }, () => -1);
  for (const place of places) if (place !== null) stopped[place.string - 1] = place.fret;
  return gripOf(stopped).cost;
}

/** The ways to lay the notes of a moment on strings, each string once, the easiest first; of equals the one whose first notes are on the higher strings. Notes are left out only where there is no other way, as few as can be. */
export function assignmentsOf(options: readonly (readonly Fingerboard[])[], stringCount: number): Assignment[] {
  for (let missing = 0; missing <= options.length; missing += 1) {
    const search = new Search(options, missing);
    search.run();
    if (search.found.length === 0) continue;
    return search.found
      .map((places) => ({ places, missing, cost: costOf(places, stringCount) }))
      .sort((a, b) => a.cost - b.cost)
      .slice(0, mostAssignments);
  }
  return [{ places: options.map(() => null), missing: options.length, cost: 0 }];
}
