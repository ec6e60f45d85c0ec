/** Wins a column for a row by raising prices until every row holds the column that it gains most from. */
class Auction {
  private readonly rowGain: number[];
  private readonly columnPrice: number[];
  /** The row that holds each column; −1 where none does. */
  readonly holder: number[];

  constructor(private readonly gain: readonly (readonly number[])[]) {
    this.rowGain = gain.map((row) => Math.max(...row));
    this.columnPrice = gain.map(() => 0);
    this.holder = gain.map(() => -1);
  }

  private slack(row: number, column: number): number {
    return (this.rowGain[row] as number) + (this.columnPrice[column] as number) - (this.gain[row]?.[column] as number);
  }

  /** Finds the cheapest chain of exchanges that gives `newRow` a column, and makes it. */
  seat(newRow: number): void {
    const size = this.gain.length;
    const rows = new Set([newRow]);
    const reached = new Map<number, number>();
    const slack = Array.from({ length: size }, (_, column) => this.slack(newRow, column));
    const cause = new Array<number>(size).fill(newRow);
    for (;;) {
      let nearest = -1;
      for (let column = 0; column < size; column++)
        if (!reached.has(column) && (nearest === -1 || (slack[column] as number) < (slack[nearest] as number)))
          nearest = column;
      const step = slack[nearest] as number;
      for (const row of rows) this.rowGain[row] = (this.rowGain[row] as number) - step;
      for (let column = 0; column < size; column++)
        if (reached.has(column)) this.columnPrice[column] = (this.columnPrice[column] as number) + step;
        else slack[column] = (slack[column] as number) - step;
      reached.set(nearest, cause[nearest] as number);
      const next = this.holder[nearest] as number;
      if (next === -1) {
        this.exchange(nearest, newRow, reached);
        return;
      }
      rows.add(next);
      for (let column = 0; column < size; column++) {
        const through = this.slack(next, column);
        if (reached.has(column) || through >= (slack[column] as number)) continue;
        slack[column] = through;
        cause[column] = next;
      }
    }
  }

  private exchange(lastColumn: number, newRow: number, reached: ReadonlyMap<number, number>): void {
    for (let column = lastColumn; ;) {
      const row = reached.get(column) as number;
      const left = this.holder.indexOf(row);
      this.holder[column] = row;
      if (row === newRow) return;
      column = left;
    }
  }
}

/** For each row of a square table the column that it is matched with, each column once, so that the sum of gains is greatest. **Source** Kuhn, The Hungarian method for the assignment problem, 1955. */
function assigned(gain: readonly (readonly number[])[]): readonly number[] {
  const auction = new Auction(gain);
  for (let row = 0; row < gain.length; row++) auction.seat(row);
  return gain.map((_, row) => auction.holder.indexOf(row));
}

/**
 * Which label stands for each true voice, one label for one voice, so that as many notes as possible are right.
 * Voices beyond the labels have none. Notes without a label count for no match.
 */
export function bestMatching<Voice, Label>(
  truth: readonly Voice[],
  labels: readonly (Label | null)[],
): ReadonlyMap<Voice, Label> {
  const voices = [...new Set(truth)];
  const names = [...new Set(labels)].filter((label): label is Label & {} => label !== null);
  const size = Math.max(voices.length, names.length);
  const gain = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const placeOf = new Map(names.map((name, index) => [name, index]));
  const rowOf = new Map(voices.map((voice, index) => [voice, index]));
  truth.forEach((voice, index) => {
    const column = placeOf.get(labels[index] as Label & {});
    const row = gain[rowOf.get(voice) as number] as number[];
    if (column !== undefined) row[column] = (row[column] as number) + 1;
  });
  const columns = assigned(gain);
  return new Map(
    voices.flatMap((voice, row) => {
      const name = names[columns[row] as number];
      return name === undefined ? [] : [[voice, name] as const];
    }),
  );
}
