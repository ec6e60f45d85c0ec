import type { Strip } from './strip.ts';

const mostDrawn = 40;
const guessedHeight = 290;

/** Draws strips near the viewport one after another and takes far ones out again, so that a long score costs no more than a short one. */
export class StripQueue {
  readonly #observer: IntersectionObserver;
  readonly #onDrawn: (strip: Strip) => void;
  readonly #onTrouble: (error: unknown) => void;
  readonly #near = new Set<Strip>();
  #strips: readonly Strip[] = [];
  #isDrawing = false;
  #isEnded = false;

  constructor(onDrawn: (strip: Strip) => void, onTrouble: (error: unknown) => void) {
    this.#onDrawn = onDrawn;
    this.#onTrouble = onTrouble;
    this.#observer = new IntersectionObserver((entries) => this.#seen(entries), { rootMargin: '900px 0px' });
  }

  /** From now on these strips are the ones to draw. */
  watch(strips: readonly Strip[]): void {
    this.#observer.disconnect();
    this.#near.clear();
    this.#strips = strips;
    for (const strip of strips) {
      strip.reserve(guessedHeight);
      this.#observer.observe(strip.element);
    }
  }

  /** Draws a strip although it is far from the viewport, as when the music is there. */
  wantNow(strip: Strip): void {
    this.#near.add(strip);
    void this.#drawNext();
  }

  destroy(): void {
    this.#isEnded = true;
    this.#observer.disconnect();
  }

  #seen(entries: readonly IntersectionObserverEntry[]): void {
    for (const entry of entries) {
      const strip = this.#strips.find((candidate) => candidate.element === entry.target);
      if (strip === undefined) continue;
      if (entry.isIntersecting) this.#near.add(strip);
      else this.#near.delete(strip);
    }
    void this.#drawNext();
  }

  async #drawNext(): Promise<void> {
    if (this.#isDrawing) return;
    this.#isDrawing = true;
    for (let strip = this.#next(); strip !== undefined && !this.#isEnded; strip = this.#next()) {
      try {
        await strip.draw();
        if (this.#strips.includes(strip)) this.#onDrawn(strip);
      } catch (error) {
        this.#near.delete(strip);
        this.#onTrouble(error);
      }
      this.#clearFar();
      await new Promise((resolve) => setTimeout(resolve, 0));
    }
    this.#isDrawing = false;
  }

  #next(): Strip | undefined {
    return this.#strips.find((strip) => strip.drawn === null && this.#near.has(strip));
  }

  #clearFar(): void {
    const drawn = this.#strips.filter((strip) => strip.drawn !== null);
    const surplus = drawn.length - mostDrawn;
    if (surplus <= 0) return;
    for (const strip of drawn.filter((candidate) => !this.#near.has(candidate)).slice(0, surplus)) strip.clear();
  }
}
