import {
  activeLines,
  type Bar,
  type HeadId,
  type LineId,
  type NoteId,
  type Score,
  type SoundingNote,
} from '../../music/index.ts';
import { drawHalfTies } from './draw-half-ties.ts';
import { drawMarks } from './draw-marks.ts';
import { drawThreads } from './draw-threads.ts';
import { engrave, loadEngraver } from './engraver.ts';
import { EdgeEyes, eyePlaces, type EyeMeasures } from './eyes.ts';
import type { DrawnHead, DrawnStrip } from './geometry.ts';
import { HitGrid } from './hit-grid.ts';
import { appearances, type Appearance, type SheetLook } from './look.ts';
import { measureStrip } from './measure-strip.ts';
import { paintHead, stitchesOf } from './paint-heads.ts';
import styles from './sheet.module.css';
import { readyForEngraver } from './strip-document.ts';
import { drawSystemWords, finishEngraving } from './strip-finish.ts';
import { sizeLayer, svgElement } from './svg.ts';
import type { ThreadPoint } from './thread-curve.ts';

/** Where a sheet gets its music from. */
export interface SheetSource {
  readonly score: Score;
  /** The MusicXML of the bars from `first` to `last`, with our ids on its notes, for the engraver alone. */
  readonly documentOfBars: (first: Bar, last: Bar) => Document;
  readonly noteOfHead: ReadonlyMap<HeadId, NoteId>;
  /** Where a head stands for its note on one line only, as in a written-out staff. */
  readonly lineOfHead: ReadonlyMap<HeadId, LineId>;
  /** The staff that belongs to a line alone, by part id; null where lines share staves. */
  readonly staffOfLine: (line: LineId) => string | null;
  /** What a player sets up before the first note; empty where nothing. */
  readonly setUp: string;
  /** How many staves a system has. */
  readonly staffCount: number;
  /** What stands before each staff in print, by part id. */
  readonly staffNames: ReadonlyMap<string, StaffName>;
}

/** A staff's name at the first system, and what stands for it at later ones. */
export interface StaffName {
  readonly full: string;
  readonly short: string;
}

/** How strips of a sheet are set. */
export interface StripMeasures {
  readonly width: number;
  /** Room at the left for eyes. */
  readonly inset: number;
  readonly zoom: number;
  readonly eyes: EyeMeasures;
  readonly thickness: number;
}

/** Where the cursor is and what is shown as starting together. */
export interface StripFocus {
  readonly cursor: NoteId | null;
  readonly slice: readonly NoteId[];
}

const spaceBelow = 26;

/** One engraved stretch of the sheet, a system as a rule, with its layers of threads, stitches and marks. */
export class Strip {
  readonly element = document.createElement('div');
  readonly bars: readonly Bar[];
  readonly isFirst: boolean;
  drawn: DrawnStrip | null = null;
  grid: HitGrid<DrawnHead> = new HitGrid<DrawnHead>([]);
  readonly #source: SheetSource;
  readonly #measures: StripMeasures;
  readonly #before: Bar | null;
  readonly #under = svgElement('svg', { class: styles['under'] ?? '', 'aria-hidden': 'true' });
  readonly #over = svgElement('svg', { class: styles['over'] ?? '', 'aria-hidden': 'true' });
  readonly #music = document.createElement('div');
  readonly #threads = svgElement('g');
  readonly #stitches = svgElement('g');
  readonly #eyes: EdgeEyes;
  #halfTies: readonly SVGElement[] = [];
  readonly #noteById: ReadonlyMap<NoteId, SoundingNote>;
  #paintedHeads: string[] = [];
  #stitchOfHead: SVGGElement[] = [];
  #paintedThreads = '';

  constructor(
    source: SheetSource,
    bars: readonly Bar[],
    before: Bar | null,
    measures: StripMeasures,
    isFirst: boolean,
    noteById: ReadonlyMap<NoteId, SoundingNote>,
  ) {
    this.#source = source;
    this.#noteById = noteById;
    this.bars = bars;
    this.isFirst = isFirst;
    this.#before = before;
    this.#measures = measures;
    this.element.className = styles['strip'] ?? '';
    this.#music.className = styles['music'] ?? '';
    this.#under.append(this.#threads, this.#stitches);
    for (const layer of [this.#under, this.#music, this.#over]) {
      layer.style.left = `${measures.inset}px`;
      this.element.append(layer);
    }
    this.#music.style.width = `${measures.width}px`;
    this.#eyes = new EdgeEyes(this.element, measures.eyes, measures.inset, isFirst);
  }

  /** How far its music stands from the sheet's left edge. */
  get inset(): number {
    return this.#measures.inset;
  }

  get startTicks(): number {
    return this.bars[0]?.onsetTicks ?? 0;
  }

  get endTicks(): number {
    const last = this.bars.at(-1);
    return last === undefined ? 0 : last.onsetTicks + last.lengthTicks;
  }

  /** Keeps the room that the strip will need, before it is drawn. */
  reserve(height: number): void {
    if (this.drawn === null) this.element.style.height = `${height}px`;
  }

  get height(): number {
    return this.drawn === null ? 0 : this.drawn.height + spaceBelow;
  }

  /** Engraves the strip; it is painted by the next `paint`. */
  async draw(): Promise<void> {
    const library = await loadEngraver();
    const document = this.#source.documentOfBars(this.bars[0] as Bar, this.bars.at(-1) as Bar);
    readyForEngraver(document, { bars: this.bars, before: this.#before });
    this.#music.replaceChildren();
    const osmd = await engrave(library, this.#music, document, {
      zoom: this.#measures.zoom,
      barCount: this.bars.length,
      hasWordsAbove: this.#before === null && this.#source.setUp !== '',
      fontFamily: 'Alegreya Sans, sans-serif',
    });
    finishEngraving(this.#music);
    const { ticksPerQuarter } = this.#source.score;
    this.drawn = measureStrip(osmd, {
      zoom: osmd.zoom,
      ticksPerQuarter,
      bars: this.bars,
      noteOfHead: this.#source.noteOfHead,
    });
    this.grid = new HitGrid(this.drawn.heads);
    this.#halfTies =
      this.#source.lineOfHead.size > 0 ? [] : drawHalfTies(this.drawn, this, (note) => this.#noteById.get(note));
    this.element.style.height = `${this.height}px`;
    for (const layer of [this.#under, this.#over]) sizeLayer(layer, this.#measures.width, this.height);
    this.#forget();
  }

  /** Takes the engraving out of the page; the room stays. */
  clear(): void {
    this.drawn = null;
    this.grid = new HitGrid<DrawnHead>([]);
    this.#music.replaceChildren();
    this.#over.replaceChildren();
    this.#threads.replaceChildren();
    this.#eyes.clear();
    this.#forget();
  }

  #forget(): void {
    this.#paintedHeads = [];
    this.#stitchOfHead = [];
    this.#stitches.replaceChildren();
    this.#paintedThreads = '';
  }

  /** Brings what is drawn in line with a look; touches only what differs. Says whether any head did. */
  paint(look: SheetLook, focus: StripFocus, goesOn: (line: LineId) => boolean): boolean {
    const { drawn } = this;
    if (drawn === null) return false;
    const appearanceOf = appearances(look);
    const hasChanged = this.#paintHeads(drawn, look, appearanceOf);
    this.#paintThreads(drawn, look, hasChanged, goesOn);
    const marks = drawMarks({ strip: drawn, grid: this.grid, look, appearanceOf, ...focus });
    this.#over.replaceChildren(...this.#words(drawn), ...this.#halfTies, ...marks);
    return hasChanged;
  }

  #words(drawn: DrawnStrip): readonly SVGElement[] {
    return drawSystemWords(drawn, this.bars, this.#before, this.#source.setUp);
  }

  #paintHeads(drawn: DrawnStrip, look: SheetLook, appearanceOf: (note: NoteId) => Appearance): boolean {
    let hasChanged = false;
    drawn.heads.forEach((head, index) => {
      const appearance = this.#onOwnLine(head, appearanceOf(head.note));
      const signature = `${appearance.lines.map((line) => line.dye + line.id).join()}|${String(appearance.isDim)}|${look.view}`;
      if (this.#paintedHeads[index] === signature) return;
      this.#paintedHeads[index] = signature;
      hasChanged = true;
      paintHead(head, appearance);
      this.#stitch(head, index, appearance, look);
    });
    return hasChanged;
  }

  #onOwnLine(head: DrawnHead, appearance: Appearance): Appearance {
    const own = this.#source.lineOfHead.get(head.head);
    if (own === undefined) return appearance;
    const lines = appearance.lines.filter((line) => line.id === own);
    return { ...appearance, lines, dyes: lines.map((line) => line.dye) };
  }

  #stitch(head: DrawnHead, index: number, appearance: Appearance, look: SheetLook): void {
    const group = this.#stitchOfHead[index] ?? svgElement('g');
    if (this.#stitchOfHead[index] === undefined) {
      this.#stitchOfHead[index] = group;
      this.#stitches.append(group);
    }
    const wanted = head.kind === 'digit' || look.view === 'stacked';
    group.setAttribute('opacity', appearance.isDim ? '0.2' : '1');
    group.replaceChildren(...(wanted ? stitchesOf(head, appearance) : []));
  }

  #paintThreads(drawn: DrawnStrip, look: SheetLook, headsChanged: boolean, goesOn: (line: LineId) => boolean): void {
    const lines = activeLines(look.split);
    const tones = lines.map((line) => look.tones.get(line.id));
    const signature = `${look.view}|${[...look.lifted].join()}|${tones.join()}|${lines.map((line) => line.id + line.dye + line.letter + line.name + String(goesOn(line.id))).join()}`;
    if (!headsChanged && signature === this.#paintedThreads) return;
    this.#paintedThreads = signature;
    const places = drawn.systems.map((system) =>
      eyePlaces(system, lines, this.#measures.eyes, this.#source.staffOfLine),
    );
    const eyePlace = (system: number, line: LineId): ThreadPoint => places[system]?.get(line) ?? { x: 0, y: 0 };
    this.#eyes.show({ places, lines, lifted: look.lifted, tones: look.tones });
    const isThreaded = look.view === 'threaded';
    const linesOf = (note: NoteId): readonly LineId[] => look.split.marks.get(note)?.lines ?? [];
    this.#threads.replaceChildren(
      ...(isThreaded
        ? drawThreads({
            strip: drawn,
            lines,
            linesOf,
            lifted: look.lifted,
            eyePlace,
            goesOn,
            thickness: this.#measures.thickness,
          })
        : []),
    );
  }
}
