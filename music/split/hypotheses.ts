/** How many partial answers are kept from one moment to the next. */
export const beamWidth = 16;

/** A pool of partial answers: for each, what every line did last. **Shape** columns are indexed `hypothesis × lineCount + line`. */
export interface HypothesisPool {
  size: number;
  readonly cost: Float64Array;
  readonly hash: Int32Array;
  readonly top: Int16Array;
  readonly low: Int16Array;
  readonly end: Float64Array;
  readonly value: Int16Array;
  /** Running mean of the line's pitch, times 16. */
  readonly mean: Int32Array;
  /** The line's last unit, or −1 where it has none yet. */
  readonly unit: Int32Array;
}

/** An empty pool for so many lines. */
export function hypothesisPool(lineCount: number): HypothesisPool {
  const cells = beamWidth * lineCount;
  return {
    size: 0,
    cost: new Float64Array(beamWidth),
    hash: new Int32Array(beamWidth),
    top: new Int16Array(cells),
    low: new Int16Array(cells),
    end: new Float64Array(cells),
    value: new Int16Array(cells),
    mean: new Int32Array(cells),
    unit: new Int32Array(cells).fill(-1),
  };
}

/** A number that tells which unit a line had last; states are told apart by the exclusive or over their lines. */
export function stateKey(line: number, unit: number): number {
  let key = Math.imul(unit * 8 + line + 9, 0x9e3779b1);
  key = Math.imul(key ^ (key >>> 15), 0x85ebca6b);
  return key ^ (key >>> 13);
}
