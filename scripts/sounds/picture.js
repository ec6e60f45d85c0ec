import { sampleRate } from './measures.js';
import { pngOf } from './png.js';
import { powersOf } from './spectrum.js';

const left = 40;
const plotWidth = 600;
const waveHeight = 70;
const gap = 8;
const spectrumHeight = 190;
const bottom = 16;
const width = left + plotWidth + 16;
const height = gap + waveHeight + gap + spectrumHeight + bottom;
const shades = 12;
const [rule, ink] = [12, 13];
const size = 4096;
const lowestHertz = 50;
const highestHertz = 16_000;
const floorDb = -84;

/** Paper to ink, then the rules, the waveform. */
const palette = [
  ...Array.from({ length: shades }, (_, shade) => {
    const share = (shade / (shades - 1)) ** 0.9;
    return [
      [252, 36],
      [248, 40],
      [239, 54],
    ].map(([paper, dark]) => Math.round(paper + (dark - paper) * share));
  }),
  [205, 196, 178],
  [47, 79, 112],
  [110, 102, 88],
  [110, 102, 88],
];
const label = 14;

/** Figures of 3 × 5, a row a digit in octal. */
const figures = {
  0: '75557',
  1: '26227',
  2: '71747',
  3: '71717',
  4: '55711',
  5: '74717',
  6: '74757',
  7: '71122',
  8: '75757',
  9: '75717',
  '.': '00002',
  k: '45655',
  H: '55755',
  z: '07247',
  s: '03617',
  ' ': '00000',
};

/** The waveform of a sound above its spectrogram, as PNG: time to the right, 50 Hz to 16 kHz upwards, each octave as high. */
export function pictureOf(samples, seconds) {
  const pixels = new Uint8Array(width * height);
  drawSpectrum(pixels, samples, seconds);
  drawWave(pixels, samples, seconds);
  drawScales(pixels, seconds);
  return pngOf({ width, height, pixels, palette });
}

const top = gap + waveHeight + gap;
const rowOf = (hertz) =>
  top + Math.round((1 - Math.log(hertz / lowestHertz) / Math.log(highestHertz / lowestHertz)) * (spectrumHeight - 1));

function drawSpectrum(pixels, samples, seconds) {
  const columns = Array.from({ length: plotWidth / 2 }, (_, column) => {
    const middle = Math.round(((column + 0.5) / (plotWidth / 2)) * seconds * sampleRate);
    const window = new Float32Array(size);
    for (let index = 0; index < size; index += 1) window[index] = samples[middle - size / 2 + index] ?? 0;
    return powersOf(window, size);
  });
  const loudest = Math.max(...columns.map((powers) => Math.max(...powers)));
  columns.forEach((powers, column) => {
    for (let y = 0; y < spectrumHeight; y += 1) {
      const [low, high] = [y + 1, y].map(
        (row) => lowestHertz * (highestHertz / lowestHertz) ** (1 - row / (spectrumHeight - 1)),
      );
      const db = 10 * Math.log10(strongest(powers, low, high) / loudest + 1e-12);
      const shade = Math.max(0, Math.round((1 - db / floorDb) * (shades - 1)));
      const at = (top + y) * width + left + column * 2;
      pixels[at] = pixels[at + 1] = shade;
    }
  });
}

/** The strongest bin within a band, or what lies between two bins where the band is narrower. */
function strongest(powers, lowHertz, highHertz) {
  const perBin = sampleRate / size;
  let most = 0;
  for (let bin = Math.ceil(lowHertz / perBin); bin <= highHertz / perBin; bin += 1)
    most = Math.max(most, powers[bin] ?? 0);
  if (most > 0) return most;
  const place = (lowHertz + highHertz) / 2 / perBin;
  const bin = Math.floor(place);
  return (powers[bin] ?? 0) * (1 - place + bin) + (powers[bin + 1] ?? 0) * (place - bin);
}

function drawWave(pixels, samples, seconds) {
  const peak = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 1e-9);
  const middle = gap + waveHeight / 2;
  for (let x = 0; x < plotWidth; x += 1) {
    const from = Math.floor((x / plotWidth) * seconds * sampleRate);
    const to = Math.floor(((x + 1) / plotWidth) * seconds * sampleRate);
    let [low, high] = [0, 0];
    for (let at = from; at < to; at += 1) {
      low = Math.min(low, samples[at] ?? 0);
      high = Math.max(high, samples[at] ?? 0);
    }
    const reach = (waveHeight / 2 - 1) / peak;
    for (let y = Math.round(middle - high * reach); y <= Math.round(middle - low * reach); y += 1)
      pixels[y * width + left + x] = ink;
  }
}

function drawScales(pixels, seconds) {
  for (const [hertz, text] of [
    [100, '100'],
    [200, '200'],
    [500, '500'],
    [1000, '1k'],
    [2000, '2k'],
    [5000, '5k'],
    [10_000, '10k'],
  ]) {
    const y = rowOf(hertz);
    for (let x = left - 4; x < left; x += 1) pixels[y * width + x] = label;
    write(pixels, text, left - 7 - text.length * 8, y - 5);
  }
  write(pixels, 'Hz', left - 23, top - 7);
  const step = [0.05, 0.1, 0.2, 0.5, 1].find((each) => seconds / each <= 8) ?? 1;
  for (let mark = 0; mark <= seconds + 1e-9; mark += step) {
    const x = left + Math.round((mark / seconds) * (plotWidth - 1));
    for (let y = gap; y < top - gap; y += 3) if (pixels[y * width + x] === 0) pixels[y * width + x] = rule;
    for (let y = top + spectrumHeight; y < top + spectrumHeight + 3; y += 1) pixels[y * width + x] = label;
    const text = `${Number(mark.toFixed(2))}${mark + step > seconds + 1e-9 ? 's' : ''}`;
    write(pixels, text, Math.min(x - 4, width - text.length * 8), top + spectrumHeight + 5);
  }
}

/** Writes figures twice their size. */
function write(pixels, text, x, y) {
  [...text].forEach((figure, place) => {
    for (let row = 0; row < 5; row += 1) {
      const bits = Number(figures[figure][row]);
      for (let column = 0; column < 3; column += 1) {
        if ((bits & (4 >> column)) === 0) continue;
        for (const [dx, dy] of [
          [0, 0],
          [1, 0],
          [0, 1],
          [1, 1],
        ])
          pixels[(y + row * 2 + dy) * width + x + place * 8 + column * 2 + dx] = label;
      }
    }
  });
}
