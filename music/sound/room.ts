import { exactPow } from '../basis/exact-math.ts';

/** Lengths of the four delays at 48 kHz; without common factors, so that echoes do not pile up. */
const delaySamples = [1237, 1559, 1867, 2089] as const;
const ringSeconds = 0.65;
const darkening = 0.42;
/** Smaller values are taken as none, before they grow slow to reckon with. */
const silent = 1e-15;

/** A small room: four delays that feed each other. **Source** Jot and Chaigne, AES 90th Convention, 1991, preprint 3030. */
export class Room {
  private readonly delays: readonly Float32Array[];
  private readonly gains: Float64Array;
  private readonly lows = new Float64Array(4);
  private readonly at = new Int32Array(4);

  constructor(sampleRate: number) {
    const lengths = delaySamples.map((samples) => Math.round((samples * sampleRate) / 48_000));
    this.delays = lengths.map((length) => new Float32Array(length));
    this.gains = Float64Array.from(lengths, (length) => exactPow(10, (-3 * length) / (ringSeconds * sampleRate)));
  }

  /** Adds the room's answer to `send`, `wet` loud, to both sides. */
  render(send: Float32Array, left: Float32Array, right: Float32Array, count: number, wet: number): void {
    const [first, second, third, fourth] = this.delays as [Float32Array, Float32Array, Float32Array, Float32Array];
    const { at } = this;
    for (let index = 0; index < count; index += 1) {
      const a = first[at[0] as number] as number;
      const b = second[at[1] as number] as number;
      const c = third[at[2] as number] as number;
      const d = fourth[at[3] as number] as number;
      left[index] = (left[index] as number) + wet * (a + c);
      right[index] = (right[index] as number) + wet * (b + d);
      const sample = (send[index] as number) * 0.5;
      this.feed(first, 0, 0.5 * (a + b + c + d), sample);
      this.feed(second, 1, 0.5 * (a - b + c - d), -sample);
      this.feed(third, 2, 0.5 * (a + b - c - d), sample);
      this.feed(fourth, 3, 0.5 * (a - b - c + d), -sample);
    }
  }

  private feed(delay: Float32Array, which: number, mixed: number, sample: number): void {
    const low =
      (this.lows[which] as number) +
      (1 - darkening) * (mixed * (this.gains[which] as number) - (this.lows[which] as number));
    this.lows[which] = Math.abs(low) > silent ? low : 0;
    const place = this.at[which] as number;
    const value = low + sample;
    delay[place] = Math.abs(value) > silent ? value : 0;
    this.at[which] = place + 1 >= delay.length ? 0 : place + 1;
  }

  clear(): void {
    for (const delay of this.delays) delay.fill(0);
    this.lows.fill(0);
  }
}
