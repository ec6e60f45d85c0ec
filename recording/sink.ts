/** Where a file's bytes go: each piece at its place, most of them one after the other. */
export interface Sink {
  readonly write: (bytes: Uint8Array, at: number) => void;
}
