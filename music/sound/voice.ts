/** One sounding thing of the pool. It is started, renders block by block, and falls silent by itself. */
export interface Voice {
  readonly isActive: boolean;
  /** Whether its sound goes through the guitar's body. */
  readonly isThroughBody: boolean;
  /** Adds its sound to `out` from sample `from` up to `to`; `rate` is how fast written time goes by. */
  render(out: Float32Array, from: number, to: number, rate: number): void;
  /** Lets it die away within `seconds`. */
  release(seconds: number): void;
}
