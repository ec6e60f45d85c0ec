import type { AssignmentTable } from './assignments.ts';
import { beamWidth } from './hypotheses.ts';

/** How many histories of one state are remembered, its best included. */
export const edgesPerState = 3;

/** All that the search kept. **Shape** `parents`, `rows` and `costs` are indexed `(moment × beamWidth + state) × edgesPerState + edge`; parent −1 where there is no further edge; edge 0 is the cheapest. */
export interface Lattice {
  readonly momentCount: number;
  readonly sizes: Uint8Array;
  readonly parents: Int8Array;
  readonly rows: Uint16Array;
  /** The cost of the whole path through the edge up to its moment, less that of the moment's best. */
  readonly costs: Int32Array;
  readonly tables: AssignmentTable[];
  /** What the cheapest path costs. **Units** 1/256 semitone. */
  totalCost: number;
}

/** A lattice without states. */
export function emptyLattice(momentCount: number): Lattice {
  const edges = momentCount * beamWidth * edgesPerState;
  return {
    momentCount,
    sizes: new Uint8Array(momentCount),
    parents: new Int8Array(edges).fill(-1),
    rows: new Uint16Array(edges),
    costs: new Int32Array(edges),
    tables: [],
    totalCost: 0,
  };
}

/** The line of each unit on the cheapest path. **Shape** one entry per unit. */
export function bestPath(lattice: Lattice, momentStart: Int32Array): Uint8Array {
  const lines = new Uint8Array(momentStart[lattice.momentCount] ?? 0);
  let state = 0;
  for (let moment = lattice.momentCount - 1; moment >= 0; moment--) {
    const edge = (moment * beamWidth + state) * edgesPerState;
    const table = lattice.tables[moment] as AssignmentTable;
    const row = (lattice.rows[edge] as number) * table.unitCount;
    lines.set(table.slots.subarray(row, row + table.unitCount), momentStart[moment]);
    state = lattice.parents[edge] ?? 0;
  }
  return lines;
}
