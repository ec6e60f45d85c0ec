import { xOfTicks, type DrawnSystem } from './geometry.ts';
import styles from './sheet.module.css';
import type { Strip } from './strip.ts';

/** The upright line that stands where the music is; moved by transform alone. */
export class PlaceLine {
  readonly #element = document.createElement('div');
  #system: DrawnSystem | null = null;
  #last: DrawnSystem | null = null;
  #top = 0;

  constructor(root: HTMLElement) {
    this.#element.className = styles['place'] ?? '';
    this.#element.setAttribute('aria-hidden', 'true');
    this.#element.dataset['place'] = '';
    this.hide();
    root.append(this.#element);
  }

  hide(): void {
    this.#element.style.visibility = 'hidden';
    this.#system = null;
  }

  /** Puts the line at a moment of a strip. Says whether the line came there from another system. */
  moveTo(strip: Strip, ticks: number): boolean {
    const system = strip.drawn?.systems.find((candidate) => xOfTicks(candidate.times, ticks) !== null);
    if (system === undefined) {
      this.hide();
      return false;
    }
    const hasCome = this.#last !== null && system !== this.#last;
    if (system !== this.#system) this.#enter(strip, system);
    this.#last = system;
    const x = strip.inset + (xOfTicks(system.times, ticks) as number);
    this.#element.style.transform = `translate3d(${x}px,${this.#top}px,0)`;
    return hasCome;
  }

  /** Makes the next move measure its system anew, after strips have moved. */
  forget(): void {
    this.#system = null;
  }

  #enter(strip: Strip, system: DrawnSystem): void {
    this.#system = system;
    this.#top = strip.element.offsetTop + system.top - 34;
    this.#element.style.height = `${system.bottom - system.top + 42}px`;
    this.#element.style.visibility = 'visible';
  }
}
