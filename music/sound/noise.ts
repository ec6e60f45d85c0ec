/** White noise between −1 and 1 from a seed: the same seed gives the same numbers everywhere. **Source** Marsaglia, Xorshift RNGs, 2003 (13, 17, 5). */
export class Noise {
  private state = 1;

  reseed(seed: number): void {
    this.state = seed >>> 0 === 0 ? 0x9e3779b9 : seed >>> 0;
    for (let warm = 0; warm < 4; warm += 1) this.next();
  }

  next(): number {
    let state = this.state;
    state ^= state << 13;
    state >>>= 0;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    this.state = state;
    return state / 2147483648 - 1;
  }
}

/** A seed from a text and a number. **Source** FNV-1a, 32 bit (Fowler, Noll, Vo). */
export function seedOf(text: string, salt: number): number {
  let hash = 0x811c9dc5 ^ salt;
  for (let index = 0; index < text.length; index += 1) {
    hash = Math.imul(hash ^ text.charCodeAt(index), 0x01000193);
  }
  return hash >>> 0;
}
