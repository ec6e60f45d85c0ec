const pauseMs = 10;

const hasNothingYet = (error: unknown): boolean => error instanceof Error && 'code' in error && error.code === 'EAGAIN';

/** What `read` gives as soon as there is something: a standard input that somebody else has set not to block refuses until then. */
export function readWaiting(read: () => number): number {
  for (;;) {
    try {
      return read();
    } catch (error) {
      if (!hasNothingYet(error)) throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, pauseMs);
    }
  }
}
