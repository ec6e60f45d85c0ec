import { assignmentTables, tiedTable, type AssignmentTable } from './assignments.ts';
import { chordCost, crossingCost, linkCost, valueOnLine, type CostContext } from './costs.ts';
import { beamWidth, hypothesisPool, stateKey, type HypothesisPool } from './hypotheses.ts';
import { edgesPerState, emptyLattice, type Lattice } from './lattice.ts';
import { mostUnitsPerMoment } from './moments.ts';
import { offer, survivorsBuffer, type Survivors } from './survivors.ts';

/** Costs of one moment, for one hypothesis: `link[unit × lines + line]` and `beyond[(unit × lines + line) × lines + other]`. */
interface MomentCosts {
  readonly link: Int32Array;
  readonly beyond: Int32Array;
  readonly chord: Int32Array;
}

interface Search extends CostContext {
  readonly costs: MomentCosts;
  readonly survivors: Survivors;
}

function fillChordCosts(search: Search, first: number, unitCount: number): void {
  for (let unit = 0; unit + 1 < unitCount; unit++)
    search.costs.chord[unit] = chordCost(search, first + unit, first + unit + 1);
}

function fillCosts(search: Search, pool: HypothesisPool, hypothesis: number, moment: number, unitCount: number): void {
  const { lineCount, costs, units } = search;
  const base = hypothesis * lineCount;
  const first = units.momentStart[moment] as number;
  for (let unit = 0; unit < unitCount; unit++)
    for (let line = 0; line < lineCount; line++) {
      const cell = unit * lineCount + line;
      costs.link[cell] = linkCost(search, pool, hypothesis, moment, line, first + unit);
      for (let other = 0; other < lineCount; other++)
        costs.beyond[cell * lineCount + other] =
          other === line ? 0 : crossingCost(search, pool, base, line, other, first + unit);
    }
}

function rowCost(search: Search, table: AssignmentTable, offset: number, first: number): number {
  const { lineCount, costs, units, prices } = search;
  const { slots, unitCount } = table;
  let cost = 0;
  let used = 0;
  for (let unit = 0; unit < unitCount; unit++) used |= 1 << (slots[offset + unit] as number);
  for (let unit = 0; unit < unitCount; unit++) {
    const line = slots[offset + unit] as number;
    let link = costs.link[unit * lineCount + line] as number;
    while (unit + 1 < unitCount && slots[offset + unit + 1] === line) {
      cost += costs.chord[unit] as number;
      unit++;
      link = Math.min(link, costs.link[unit * lineCount + line] as number);
    }
    cost += link;
    const beyond = (unit * lineCount + line) * lineCount;
    for (let other = 0; other < lineCount; other++)
      if ((used & (1 << other)) === 0) cost += costs.beyond[beyond + other] as number;
    for (let later = unit + 1; later < unitCount; later++)
      if ((slots[offset + later] as number) < line && units.top[first + later] !== units.low[first + unit])
        cost += prices.crossing;
  }
  return cost;
}

function rowHash(
  search: Search,
  pool: HypothesisPool,
  hypothesis: number,
  table: AssignmentTable,
  offset: number,
  first: number,
): number {
  let hash = pool.hash[hypothesis] as number;
  const base = hypothesis * search.lineCount;
  for (let unit = 0; unit < table.unitCount; unit++) {
    const line = table.slots[offset + unit] as number;
    const isLastOnLine = unit + 1 === table.unitCount || table.slots[offset + unit + 1] !== line;
    if (isLastOnLine) hash ^= stateKey(line, pool.unit[base + line] as number) ^ stateKey(line, first + unit);
  }
  return hash;
}

function offerAll(search: Search, pool: HypothesisPool, moment: number, table: AssignmentTable): void {
  const first = search.units.momentStart[moment] as number;
  search.survivors.size = 0;
  fillChordCosts(search, first, table.unitCount);
  for (let hypothesis = 0; hypothesis < pool.size; hypothesis++) {
    fillCosts(search, pool, hypothesis, moment, table.unitCount);
    const before = pool.cost[hypothesis] as number;
    for (let row = 0; row < table.rowCount; row++) {
      const offset = row * table.unitCount;
      const cost = before + rowCost(search, table, offset, first);
      const { survivors } = search;
      if (survivors.size === beamWidth && cost >= (survivors.cost[beamWidth - 1] as number)) continue;
      offer(survivors, rowHash(search, pool, hypothesis, table, offset, first), cost, hypothesis, row);
    }
  }
}

function copyLines(
  from: HypothesisPool,
  fromBase: number,
  to: HypothesisPool,
  toBase: number,
  lineCount: number,
): void {
  for (let line = 0; line < lineCount; line++) {
    to.top[toBase + line] = from.top[fromBase + line] as number;
    to.low[toBase + line] = from.low[fromBase + line] as number;
    to.end[toBase + line] = from.end[fromBase + line] as number;
    to.value[toBase + line] = from.value[fromBase + line] as number;
    to.mean[toBase + line] = from.mean[fromBase + line] as number;
    to.unit[toBase + line] = from.unit[fromBase + line] as number;
  }
}

function applyRow(
  search: Search,
  pool: HypothesisPool,
  base: number,
  table: AssignmentTable,
  offset: number,
  first: number,
): void {
  const { units } = search;
  for (let unit = 0; unit < table.unitCount; unit++) {
    const cell = base + (table.slots[offset + unit] as number);
    const start = unit;
    while (unit + 1 < table.unitCount && table.slots[offset + unit + 1] === table.slots[offset + unit]) unit++;
    const top = units.top[first + start] as number;
    const low = units.low[first + unit] as number;
    const middle = (top + low) * 8;
    const mean = pool.mean[cell] as number;
    pool.mean[cell] = pool.unit[cell] === -1 ? middle : mean + Math.trunc((middle - mean) / 8);
    pool.top[cell] = top;
    pool.low[cell] = low;
    pool.end[cell] = units.end[first + unit] as number;
    pool.value[cell] = valueOnLine(search, pool.unit[cell] as number, first + unit);
    pool.unit[cell] = first + unit;
  }
}

function keep(
  search: Search,
  lattice: Lattice,
  moment: number,
  table: AssignmentTable,
  from: HypothesisPool,
  to: HypothesisPool,
): void {
  const { survivors, lineCount } = search;
  const first = search.units.momentStart[moment] as number;
  const cheapest = survivors.cost[0] as number;
  to.size = survivors.size;
  lattice.sizes[moment] = survivors.size;
  lattice.tables.push(table);
  lattice.totalCost += cheapest;
  for (let state = 0; state < survivors.size; state++) {
    for (let edge = 0; edge < edgesPerState; edge++) {
      const here = state * edgesPerState + edge;
      const there = moment * beamWidth * edgesPerState + here;
      lattice.parents[there] = survivors.parent[here] as number;
      lattice.rows[there] = survivors.row[here] as number;
      lattice.costs[there] = survivors.parent[here] === -1 ? 0 : (survivors.edgeCost[here] as number) - cheapest;
    }
    copyLines(from, (survivors.parent[state * edgesPerState] as number) * lineCount, to, state * lineCount, lineCount);
    applyRow(
      search,
      to,
      state * lineCount,
      table,
      (survivors.row[state * edgesPerState] as number) * table.unitCount,
      first,
    );
    to.cost[state] = (survivors.cost[state] as number) - cheapest;
    to.hash[state] = survivors.hash[state] as number;
  }
}

/**
 * The cheapest ways found to hand all units to lines, by a beam over the moments; pinned units go where they are tied.
 * **Source** McLeod and Steedman, HMM-based voice separation of MIDI performance, JNMR 45 (2016); Chew and Wu, Separating voices in polyphonic music, CMMR 2004.
 */
export function searchLines(context: CostContext, pins: Int8Array | null): Lattice {
  const { units, lineCount } = context;
  const momentCount = units.momentStart.length - 1;
  const cells = mostUnitsPerMoment * lineCount;
  const costs = {
    link: new Int32Array(cells),
    beyond: new Int32Array(cells * lineCount),
    chord: new Int32Array(mostUnitsPerMoment),
  };
  const search: Search = { ...context, costs, survivors: survivorsBuffer() };
  const tableOf = assignmentTables(lineCount);
  const lattice = emptyLattice(momentCount);
  let from = hypothesisPool(lineCount);
  let to = hypothesisPool(lineCount);
  from.size = 1;
  for (let line = 0; line < lineCount; line++) from.hash[0] = (from.hash[0] as number) ^ stateKey(line, -1);
  for (let moment = 0; moment < momentCount; moment++) {
    const first = units.momentStart[moment] as number;
    const free = tableOf((units.momentStart[moment + 1] as number) - first);
    const table = pins === null ? free : tiedTable(free, pins, first);
    offerAll(search, from, moment, table);
    keep(search, lattice, moment, table, from, to);
    [from, to] = [to, from];
  }
  return lattice;
}
