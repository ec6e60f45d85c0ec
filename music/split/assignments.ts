/** Every way that is tried to hand the units of one moment to the lines. **Shape** `slots` holds `rowCount` rows of `unitCount` line numbers; units run from high to low. */
export interface AssignmentTable {
  readonly unitCount: number;
  readonly lineCount: number;
  readonly rowCount: number;
  readonly slots: Uint8Array;
}

function orderedRows(unitCount: number, lineCount: number, from = 0): number[][] {
  if (unitCount === 0) return [[]];
  const rows: number[][] = [];
  for (let line = from; line < lineCount; line++)
    for (const rest of orderedRows(unitCount - 1, lineCount, line)) rows.push([line, ...rest]);
  return rows;
}

const hasChord = (row: readonly number[]): boolean => new Set(row).size < row.length;

function withSwap(row: readonly number[], upper: number, lower: number): number[] {
  const swapped = [...row];
  [swapped[upper], swapped[lower]] = [row[lower] as number, row[upper] as number];
  return swapped;
}

function swapsOf(row: readonly number[]): number[][] {
  const swaps: number[][] = [];
  for (let upper = 0; upper < row.length; upper++)
    for (let lower = upper + 1; lower < row.length && lower <= upper + 2; lower++)
      if (row[upper] !== row[lower]) swaps.push(withSwap(row, upper, lower));
  return swaps;
}

function buildTable(unitCount: number, lineCount: number): AssignmentTable {
  const ordered = orderedRows(unitCount, lineCount);
  const rows = [...ordered];
  for (const row of ordered) if (!hasChord(row)) rows.push(...swapsOf(row));
  const slots = new Uint8Array(rows.length * unitCount);
  rows.forEach((row, index) => {
    slots.set(row, index * unitCount);
  });
  return { unitCount, lineCount, rowCount: rows.length, slots };
}

/** Gives the assignment tables for one number of lines, each built once: order-preserving ones with chords, then single notes with two of them swapped. */
export function assignmentTables(lineCount: number): (unitCount: number) => AssignmentTable {
  const tables = new Map<number, AssignmentTable>();
  return (unitCount) => {
    const known = tables.get(unitCount);
    if (known !== undefined) return known;
    const table = buildTable(unitCount, lineCount);
    tables.set(unitCount, table);
    return table;
  };
}

/** The table with the pinned units tied to their lines; the same table where none is pinned. **Units** `pins` holds a line per unit of the whole piece, −1 where free. */
export function tiedTable(free: AssignmentTable, pins: Int8Array, firstUnit: number): AssignmentTable {
  const { unitCount, lineCount } = free;
  const tied = pins.subarray(firstUnit, firstUnit + unitCount);
  if (tied.every((line) => line === -1)) return free;
  if (tied.every((line) => line !== -1)) return { unitCount, lineCount, rowCount: 1, slots: Uint8Array.from(tied) };
  const rows = new Map<string, number[]>();
  for (let row = 0; row < free.rowCount; row++) {
    const slots = Array.from(free.slots.subarray(row * unitCount, (row + 1) * unitCount), (line, unit) => {
      const pin = tied[unit] as number;
      return pin === -1 ? line : pin;
    });
    rows.set(slots.join(), slots);
  }
  return { unitCount, lineCount, rowCount: rows.size, slots: Uint8Array.from([...rows.values()].flat()) };
}
