/** The powers of one window of samples by frequency, Hann-windowed; `size` must be a power of two. Bin k is k × sampleRate / size. */
export function powersOf(samples, size) {
  const real = new Float64Array(size);
  const imaginary = new Float64Array(size);
  const count = Math.min(size, samples.length);
  for (let index = 0; index < count; index += 1) {
    const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * index) / count);
    real[reversed(index, size)] = samples[index] * window;
  }
  for (let half = 1; half < size; half *= 2) turnPairs(real, imaginary, half);
  return Float64Array.from({ length: size / 2 }, (_, bin) => (real[bin] ** 2 + imaginary[bin] ** 2) / size ** 2);
}

function reversed(index, size) {
  let from = index;
  let to = 0;
  for (let bit = 1; bit < size; bit *= 2) {
    to = to * 2 + (from & 1);
    from >>= 1;
  }
  return to;
}

function turnPairs(real, imaginary, half) {
  for (let turn = 0; turn < half; turn += 1) {
    const cos = Math.cos((Math.PI * turn) / half);
    const sin = -Math.sin((Math.PI * turn) / half);
    for (let low = turn; low < real.length; low += 2 * half) {
      const high = low + half;
      const r = real[high] * cos - imaginary[high] * sin;
      const i = real[high] * sin + imaginary[high] * cos;
      real[high] = real[low] - r;
      imaginary[high] = imaginary[low] - i;
      real[low] += r;
      imaginary[low] += i;
    }
  }
}
