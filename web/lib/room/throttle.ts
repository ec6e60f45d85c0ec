/** A clock that can be wound by hand in tests. */
export interface Timers {
  readonly after: (delayMs: number, deed: () => void) => () => void;
}

/** The browser's own clock. */
export const browserTimers: Timers = {
  after: (delayMs, deed) => {
    const timer = setTimeout(deed, delayMs);
    return () => clearTimeout(timer);
  },
};

/** Hands on the newest value at once, then no more often than once in a gap; the last one always arrives. */
export class Throttle<Value> {
  readonly #gapMs: number;
  readonly #timers: Timers;
  readonly #handOn: (value: Value) => void;
  #last: { readonly value: Value } | null = null;
  #waits = false;
  #isResting = false;
  #cancel: (() => void) | null = null;

  constructor(gapMs: number, timers: Timers, handOn: (value: Value) => void) {
    this.#gapMs = gapMs;
    this.#timers = timers;
    this.#handOn = handOn;
  }

  offer(value: Value): void {
    this.#last = { value };
    this.#waits = true;
    if (!this.#isResting) this.#go();
  }

  /** Hands the last value on once more, as after a new connection. */
  again(): void {
    if (this.#last !== null) this.offer(this.#last.value);
  }

  stop(): void {
    this.#cancel?.();
    this.#waits = false;
  }

  #go(): void {
    if (!this.#waits || this.#last === null) {
      this.#isResting = false;
      return;
    }
    this.#waits = false;
    this.#isResting = true;
    this.#handOn(this.#last.value);
    this.#cancel = this.#timers.after(this.#gapMs, () => this.#go());
  }
}
