/** The weights w that bring Σ w·column closest to `target`, by the normal equations; columns must be independent. */
export function leastSquares(columns: readonly Float32Array[], target: Float32Array): number[] {
  const size = columns.length;
  const matrix = columns.map((row) => [...columns.map((column) => dot(row, column)), dot(row, target)]);
  for (let pivot = 0; pivot < size; pivot++) {
    const best = matrix
      .slice(pivot)
      .reduce(
        (found, row, index) => (Math.abs(row[pivot]!) > Math.abs(matrix[found]![pivot]!) ? pivot + index : found),
        pivot,
      );
    [matrix[pivot], matrix[best]] = [matrix[best]!, matrix[pivot]!];
    const scale = matrix[pivot]![pivot]!;
    if (scale === 0) throw new Error('The columns are not independent');
    for (let row = 0; row < size; row++) {
      if (row === pivot) continue;
      const factor = matrix[row]![pivot]! / scale;
      for (let column = pivot; column <= size; column++) matrix[row]![column]! -= factor * matrix[pivot]![column]!;
    }
  }
  return matrix.map((row, index) => row[size]! / row[index]!);
}

/** The sum of products of two equally long signals. */
export function dot(a: Float32Array, b: Float32Array): number {
  let sum = 0;
  const length = Math.min(a.length, b.length);
  for (let index = 0; index < length; index++) sum += a[index]! * b[index]!;
  return sum;
}

/** The root of the mean square. */
export const rms = (signal: Float32Array): number => Math.sqrt(dot(signal, signal) / Math.max(1, signal.length));
