/** Holds where `condition` is true; anything else is a bug of ours, never of the input. **Errors** throws `Error` with `message`. */
export function assert(condition: boolean, message: string): asserts condition {
  if (!condition) throw new Error(`Heddle bug: ${message}`);
}
