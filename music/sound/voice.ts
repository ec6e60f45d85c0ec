/** One sounding thing of the pool. It is started, renders block by block, and falls silent by itself. */
export interface Voice {
  readonly isActive: boolean;
  /** How much of its sound goes through the guitar's body, 0 to 1; the rest is heard as it is. */
  readonly bodyShare: number;
  /** Adds its sound to `out` from sample `from` up to `to`; `rate` is how fast written time goes by. */
  render(out: Float32Array, from: number, to: number, rate: number): void;
  /** Lets it die away within `seconds`. */
  release(seconds: number): void;
}
