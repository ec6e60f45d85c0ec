import { beamWidth } from './hypotheses.ts';
import { edgesPerState } from './lattice.ts';

/** The cheapest states of one moment while they are being found, in order of cost; equal costs keep the order of arrival. **Shape** edge columns are indexed `state × edgesPerState + edge`. */
export interface Survivors {
  size: number;
  readonly hash: Int32Array;
  readonly cost: Float64Array;
  readonly edgeCost: Float64Array;
  readonly parent: Int8Array;
  readonly row: Uint16Array;
}

/** Room for the survivors of one moment, to be used again and again. */
export const survivorsBuffer = (): Survivors => ({
  size: 0,
  hash: new Int32Array(beamWidth),
  cost: new Float64Array(beamWidth),
  edgeCost: new Float64Array(beamWidth * edgesPerState),
  parent: new Int8Array(beamWidth * edgesPerState),
  row: new Uint16Array(beamWidth * edgesPerState),
});

function putEdge(into: Survivors, state: number, cost: number, parent: number, row: number): void {
  const base = state * edgesPerState;
  let place = base + edgesPerState - 1;
  if ((into.parent[place] as number) !== -1 && (into.edgeCost[place] as number) <= cost) return;
  for (; place > base; place--) {
    const before = place - 1;
    if ((into.parent[before] as number) !== -1 && (into.edgeCost[before] as number) <= cost) break;
    into.edgeCost[place] = into.edgeCost[before] as number;
    into.parent[place] = into.parent[before] as number;
    into.row[place] = into.row[before] as number;
  }
  into.edgeCost[place] = cost;
  into.parent[place] = parent;
  into.row[place] = row;
}

function moveState(within: Survivors, from: number, to: number): void {
  within.hash[to] = within.hash[from] as number;
  within.cost[to] = within.cost[from] as number;
  const [source, target] = [from * edgesPerState, to * edgesPerState];
  for (let edge = 0; edge < edgesPerState; edge++) {
    within.edgeCost[target + edge] = within.edgeCost[source + edge] as number;
    within.parent[target + edge] = within.parent[source + edge] as number;
    within.row[target + edge] = within.row[source + edge] as number;
  }
}

function findState(within: Survivors, hash: number): number {
  for (let state = 0; state < within.size; state++) if (within.hash[state] === hash) return state;
  return -1;
}

/** Takes a candidate in, or leaves it where it is dearer than all that are kept; the same state arrived at twice is kept once, with both histories. */
export function offer(into: Survivors, hash: number, cost: number, parent: number, row: number): void {
  const known = findState(into, hash);
  if (known !== -1) {
    putEdge(into, known, cost, parent, row);
    if (cost < (into.cost[known] as number)) bubbleUp(into, known, cost);
    return;
  }
  if (into.size === beamWidth && cost >= (into.cost[beamWidth - 1] as number)) return;
  let place = into.size === beamWidth ? beamWidth - 1 : into.size++;
  for (; place > 0 && (into.cost[place - 1] as number) > cost; place--) moveState(into, place - 1, place);
  into.hash[place] = hash;
  into.cost[place] = cost;
  into.parent.fill(-1, place * edgesPerState, (place + 1) * edgesPerState);
  putEdge(into, place, cost, parent, row);
}

function bubbleUp(within: Survivors, state: number, cost: number): void {
  const base = state * edgesPerState;
  const edges = [0, 1, 2].map(
    (edge) =>
      [within.edgeCost[base + edge], within.parent[base + edge], within.row[base + edge]] as [number, number, number],
  );
  const hash = within.hash[state] as number;
  let place = state;
  for (; place > 0 && (within.cost[place - 1] as number) > cost; place--) moveState(within, place - 1, place);
  within.hash[place] = hash;
  within.cost[place] = cost;
  edges.forEach(([edgeCost, parent, row], edge) => {
    within.edgeCost[place * edgesPerState + edge] = edgeCost;
    within.parent[place * edgesPerState + edge] = parent;
    within.row[place * edgesPerState + edge] = row;
  });
}
