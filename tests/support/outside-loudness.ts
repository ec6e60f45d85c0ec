import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

interface MeterExports {
  readonly memory: WebAssembly.Memory;
  readonly __wbindgen_malloc: (byteCount: number) => number;
  readonly ebur128_integrated_stereo: (
    sampleRate: number,
    left: number,
    leftCount: number,
    right: number,
    rightCount: number,
  ) => number;
  readonly ebur128_true_peak_mono: (sampleRate: number, samples: number, count: number) => number;
}

/** The meter of the registry package `ebur128-wasm`, instantiated by hand, for Node does not import WebAssembly modules. */
function openMeter(): MeterExports {
  const path = createRequire(import.meta.url).resolve('ebur128-wasm/ebur128_wasm_bg.wasm');
  const module = new WebAssembly.Module(readFileSync(path));
  const refuse = (): never => {
    throw new Error('ebur128-wasm reported an error');
  };
  const imports = Object.fromEntries(
    WebAssembly.Module.imports(module).map(({ name }) => [name, name.includes('drop') ? () => undefined : refuse]),
  );
  return new WebAssembly.Instance(module, { './ebur128_wasm_bg.js': imports }).exports as unknown as MeterExports;
}

function handOver(meter: MeterExports, samples: Float32Array): number {
  const at = meter.__wbindgen_malloc(samples.byteLength);
  new Float32Array(meter.memory.buffer, at, samples.length).set(samples);
  return at;
}

/** Integrated loudness by somebody else’s meter. **Units** LUFS. */
export function outsideLoudness(left: Float32Array, right: Float32Array, sampleRate: number): number {
  const meter = openMeter();
  const leftAt = handOver(meter, left);
  const rightAt = handOver(meter, right);
  return meter.ebur128_integrated_stereo(sampleRate, leftAt, left.length, rightAt, right.length);
}

/** True peak by somebody else’s meter. **Units** decibels relative to full scale. */
export function outsideTruePeakDb(samples: Float32Array, sampleRate: number): number {
  const meter = openMeter();
  return meter.ebur128_true_peak_mono(sampleRate, handOver(meter, samples), samples.length);
}
