import type { Bar, BarId, LineId, NoteId, SoundingNote } from '../../music/index.ts';
import { lastTicksOfLines, type SheetLook } from './look.ts';
import { PlaceLine } from './place-line.ts';
import { twoDyePaints } from './paint-heads.ts';
import { noteWords } from './place-words.ts';
import { slicesOfBars } from './plan-systems.ts';
import { settingFor, setSystems } from './sheet-setting.ts';
import { stepOfKey } from './sheet-keys.ts';
import { SheetPointer } from './sheet-pointer.ts';
import styles from './sheet.module.css';
import { Strip, type SheetSource } from './strip.ts';
import { StripQueue } from './strip-queue.ts';
import { stepFrom, type Step } from './walk.ts';

/** How a note was picked. */
export interface Picking {
  readonly by: 'pointer' | 'keyboard';
  readonly adds: boolean;
  readonly extends: boolean;
}

/** What a sheet tells its owner; all are optional deeds. */
export interface SheetHandlers {
  readonly onNote?: (note: NoteId, picking: Picking) => void;
  /** A note was picked twice in a row. */
  readonly onTwice?: (note: NoteId) => void;
  readonly onStroke?: (notes: readonly NoteId[]) => void;
  readonly onStrokeEnd?: () => void;
  readonly onLasso?: (notes: readonly NoteId[], adds: boolean) => void;
  readonly onCursor?: (note: NoteId | null) => void;
  readonly onGround?: () => void;
  /** A line's eye was pressed, at the edge of a strip. */
  readonly onEye?: (line: LineId, strip: HTMLElement, eye: HTMLElement) => void;
  readonly onDrawn?: () => void;
  readonly onTrouble?: (error: unknown) => void;
}

/** Where the music is: told often, so never through React. */
export interface PlaceSource {
  subscribe(listener: (ticks: number) => void): () => void;
  /** The written moment that sounds now, or where the music rests. */
  getTicks(): number;
}

/** Which bars to show; all of them without ends. */
export interface ShownBars {
  readonly first?: BarId | undefined;
  readonly last?: BarId | undefined;
}

/** A score on the screen: engraved in strips near the viewport, painted by a split, walked by pointer and keyboard. */
export class Sheet {
  readonly element = document.createElement('div');
  readonly #spoken = document.createElement('p');
  readonly #place: PlaceLine;
  readonly #pointer: SheetPointer;
  readonly #queue: StripQueue;
  readonly #resized: ResizeObserver;
  #handlers: SheetHandlers;
  #source: SheetSource | null = null;
  #shown: ShownBars = {};
  #notes: readonly SoundingNote[] = [];
  #noteById: ReadonlyMap<NoteId, SoundingNote> = new Map();
  #lastTicksOfLine: ReadonlyMap<LineId, number> = new Map();
  #strips: readonly Strip[] = [];
  #look: SheetLook | null = null;
  #cursor: NoteId | null = null;
  #hovered: NoteId | null = null;
  #width = 0;
  #frame = 0;
  #placeTicks: number | null = null;
  #stopFollowing: (() => void) | null = null;

  constructor(host: HTMLElement, handlers: SheetHandlers = {}) {
    this.#handlers = handlers;
    this.element.className = styles['sheet'] ?? '';
    this.element.tabIndex = 0;
    this.element.setAttribute('role', 'application');
    this.element.setAttribute('aria-roledescription', 'score');
    this.#spoken.className = 'only-heard';
    this.#spoken.setAttribute('aria-live', 'polite');
    this.element.append(twoDyePaints(), this.#spoken);
    host.append(this.element);
    this.#place = new PlaceLine(this.element);
    this.#queue = new StripQueue(
      (strip) => this.#stripChanged(strip),
      (error) => this.#handlers.onTrouble?.(error),
    );
    this.#pointer = new SheetPointer(this.element, () => this.#strips, this.#pointerDeeds());
    this.element.addEventListener('keydown', (event) => this.#key(event));
    this.element.addEventListener('click', (event) => this.#eye(event));
    this.#resized = new ResizeObserver(() => {
      this.#place.forget();
      this.#measure();
    });
    this.#resized.observe(host);
  }

  /** Replaces what the sheet tells its owner through. */
  setHandlers(handlers: SheetHandlers): void {
    this.#handlers = handlers;
  }

  /** Shows a score, or some bars of it. */
  show(source: SheetSource, shown: ShownBars = {}): void {
    this.#source = source;
    this.#shown = shown;
    const bars = new Set(this.#bars().map((bar) => bar.id));
    this.#notes = source.score.notes.filter((note) => bars.has(note.bar));
    this.#noteById = new Map(this.#notes.map((note) => [note.id, note]));
    this.#width = 0;
    this.#measure();
  }

  /** Lets the sheet look so from the next frame on. */
  paint(look: SheetLook): void {
    if (this.#look?.split !== look.split) this.#lastTicksOfLine = lastTicksOfLines(this.#notes, look.split);
    this.#look = look;
    this.#schedule();
  }

  /** Moves the keyboard's cursor to a note, brings it into view and says it. */
  setCursor(note: NoteId | null, speaks = true): void {
    this.#cursor = note;
    this.#schedule();
    if (note === null) return;
    if (speaks) this.#say(note);
    this.#strips
      .find((strip) => strip.bars.some((bar) => bar.id === this.#noteById.get(note)?.bar))
      ?.element.scrollIntoView({ block: 'nearest' });
  }

  get cursor(): NoteId | null {
    return this.#cursor;
  }

  /** Puts the line of the playing place at a written moment; null takes it away. */
  setPosition(ticks: number | null): void {
    this.#placeTicks = ticks;
    const entered = this.#showPlace();
    if (entered !== null) this.#bringIntoView(entered);
  }

  /** Follows a source of the playing place until the next call or the end. */
  follow(source: PlaceSource | null): void {
    this.#stopFollowing?.();
    this.#stopFollowing = source?.subscribe((ticks) => this.setPosition(ticks)) ?? null;
    this.setPosition(source?.getTicks() ?? null);
  }

  /** Brings a bar into view. */
  reveal(bar: BarId): void {
    this.#strips
      .find((strip) => strip.bars.some((candidate) => candidate.id === bar))
      ?.element.scrollIntoView({ block: 'start' });
  }

  /** The bars that lie in the visible part of the page. */
  visibleBars(): readonly Bar[] {
    return this.#strips.filter((strip) => isVisible(strip.element)).flatMap((strip) => strip.bars);
  }

  destroy(): void {
    this.#stopFollowing?.();
    cancelAnimationFrame(this.#frame);
    this.#resized.disconnect();
    this.#queue.destroy();
    this.#pointer.destroy();
    this.element.remove();
  }

  #bars(): readonly Bar[] {
    const bars = this.#source?.score.bars ?? [];
    const first = bars.findIndex((bar) => bar.id === this.#shown.first);
    const last = bars.findIndex((bar) => bar.id === this.#shown.last);
    return bars.slice(Math.max(first, 0), last < 0 ? bars.length : last + 1);
  }

  #measure(): void {
    const width = Math.floor(this.element.parentElement?.clientWidth ?? 0);
    if (this.#source === null || width < 200 || Math.abs(width - this.#width) < 2) return;
    this.#width = width;
    this.#set(this.#source);
  }

  #set(source: SheetSource): void {
    for (const strip of this.#strips) strip.element.remove();
    const all = source.score.bars;
    const setting = settingFor(this.#width);
    this.#strips = setSystems(this.#bars(), slicesOfBars(source.score), this.#width).map(({ plan, width }, index) => {
      const before = all[all.findIndex((bar) => bar.id === plan.bars[0]?.id) - 1] ?? null;
      return new Strip(source, plan.bars, before, { ...setting, width }, index === 0, this.#noteById);
    });
    this.element.append(...this.#strips.map((strip) => strip.element));
    this.#place.forget();
    this.element.setAttribute(
      'aria-label',
      'Score. Arrow keys go from note to note: left and right along a line, up and down through what starts together.',
    );
    this.#queue.watch(this.#strips);
  }

  #stripChanged(strip: Strip): void {
    this.#place.forget();
    this.#showPlace();
    if (this.#look !== null) this.#paintStrip(strip, this.#look);
    this.#handlers.onDrawn?.();
  }

  /** Draws the line of the playing place where it is. Says which strip it has come to from another one. */
  #showPlace(): Strip | null {
    const ticks = this.#placeTicks;
    const strip =
      ticks === null ? undefined : this.#strips.find((one) => ticks >= one.startTicks && ticks < one.endTicks);
    if (ticks === null || strip === undefined) {
      this.#place.hide();
      return null;
    }
    if (strip.drawn === null) this.#queue.wantNow(strip);
    return this.#place.moveTo(strip, ticks) ? strip : null;
  }

  /** Scrolls so that a strip and, where the page is tall enough, the one after it can be read. */
  #bringIntoView(strip: Strip): void {
    const next = this.#strips[this.#strips.indexOf(strip) + 1];
    if (isWhole(strip.element) && (next === undefined || isWhole(next.element))) return;
    const isStill = window.matchMedia('(prefers-reduced-motion: reduce)').matches;
    strip.element.scrollIntoView({ block: 'start', behavior: isStill ? 'auto' : 'smooth' });
  }

  #schedule(): void {
    if (this.#frame !== 0) return;
    this.#frame = requestAnimationFrame(() => {
      this.#frame = 0;
      const look = this.#look;
      if (look !== null) for (const strip of this.#strips) this.#paintStrip(strip, look);
    });
  }

  #paintStrip(strip: Strip, look: SheetLook): void {
    const goesOn = (line: LineId): boolean => (this.#lastTicksOfLine.get(line) ?? -1) >= strip.endTicks;
    strip.paint(look, { cursor: this.#cursor, slice: this.#slice(look) }, goesOn);
  }

  #slice(look: SheetLook): readonly NoteId[] {
    const at = this.#noteById.get((look.view === 'stacked' ? (this.#hovered ?? this.#cursor) : null) as NoteId);
    return at === undefined
      ? []
      : this.#notes.filter((note) => note.onsetTicks === at.onsetTicks).map((note) => note.id);
  }

  #say(id: NoteId): void {
    const note = this.#noteById.get(id);
    const look = this.#look;
    if (note === undefined || look === null || this.#source === null) return;
    const ids = look.split.marks.get(id)?.lines ?? [];
    this.#spoken.textContent = noteWords(
      this.#source.score,
      note,
      look.split.lines.filter((line) => ids.includes(line.id)),
    );
  }

  #key(event: KeyboardEvent): void {
    if (event.target !== this.element) return;
    const step = stepOfKey(event);
    if (step !== null) {
      event.preventDefault();
      this.#step(step);
    } else if (
      this.#cursor !== null &&
      (event.key === 'Enter' || event.key === ' ') &&
      this.#handlers.onNote !== undefined
    ) {
      event.preventDefault();
      this.#handlers.onNote(this.#cursor, {
        by: 'keyboard',
        adds: event.ctrlKey || event.metaKey,
        extends: event.shiftKey,
      });
      this.#say(this.#cursor);
    }
  }

  #step(step: Step): void {
    const from = this.#cursor === null ? undefined : this.#noteById.get(this.#cursor);
    const next =
      from === undefined || this.#look === null ? this.#notes[0] : stepFrom(this.#notes, this.#look.split, from, step);
    if (next === undefined) return;
    this.setCursor(next.id);
    this.#handlers.onCursor?.(next.id);
  }

  #eye(event: MouseEvent): void {
    const button = (event.target as Element).closest<HTMLButtonElement>('button[data-line]');
    const strip = this.#strips.find((candidate) => candidate.element.contains(button));
    if (button !== null && strip !== undefined)
      this.#handlers.onEye?.(button.dataset['line'] as LineId, strip.element, button);
  }

  #pointerDeeds(): ConstructorParameters<typeof SheetPointer>[2] {
    return {
      onPick: (note, event) => {
        this.#cursor = note;
        this.#say(note);
        this.#schedule();
        this.#handlers.onCursor?.(note);
        this.#handlers.onNote?.(note, { by: 'pointer', adds: event.ctrlKey || event.metaKey, extends: event.shiftKey });
      },
      onTwice: (note) => this.#handlers.onTwice?.(note),
      onStroke: (notes) => this.#handlers.onStroke?.(notes),
      onStrokeEnd: () => this.#handlers.onStrokeEnd?.(),
      onLasso: (notes, event) => this.#handlers.onLasso?.(notes, event.shiftKey || event.ctrlKey || event.metaKey),
      onHover: (note) => {
        this.#hovered = note;
        if (this.#look?.view === 'stacked') this.#schedule();
      },
      onGround: () => this.#handlers.onGround?.(),
    };
  }
}

const isVisible = (element: HTMLElement): boolean => {
  const bounds = element.getBoundingClientRect();
  return bounds.bottom > 0 && bounds.top < window.innerHeight;
};

/** Whether all of a strip can be seen above what stands at the foot of the page. */
const isWhole = (element: HTMLElement): boolean => {
  const { top, bottom } = element.getBoundingClientRect();
  const foot = Number.parseFloat(getComputedStyle(element).scrollMarginBottom);
  return top >= 0 && bottom <= window.innerHeight - foot;
};
