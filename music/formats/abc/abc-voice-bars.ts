import type { SaidAccidentals } from './abc-accidentals.ts';
import { endingsOf, signsOfBarLine } from './abc-bar-lines.ts';
import { emptyBar, type AbcBar, type AbcChange, type AbcEvent, type AbcVoice } from './abc-events.ts';
import type { AbcMeter } from './abc-time.ts';

/** Where the music goes on after bars that were gone back to, to lay a voice over them. */
interface Overlaid {
  next: number;
  readonly resume: AbcBar;
}

/** The bars of a voice while they are written: bar lines, endings, and layers over bars that are there already. */
export class VoiceBars {
  /** The voice itself is 0, what is laid over it comes after. */
  layer = 0;
  private bar: AbcBar;
  private overlaid: Overlaid | null = null;
  private isEndingOpen = false;
  private lastEnding = 0;
  private readonly voice: AbcVoice;
  private readonly setting: { readonly meter: AbcMeter };
  /** They last for a bar. */
  private readonly accidentals: SaidAccidentals;

  constructor(voice: AbcVoice, setting: { readonly meter: AbcMeter }, accidentals: SaidAccidentals) {
    this.voice = voice;
    this.setting = setting;
    this.accidentals = accidentals;
    this.bar = emptyBar(setting.meter);
  }

  hasContent(): boolean {
    return this.bar.layers.some((layer) => layer.length > 0);
  }

  push(event: AbcEvent): void {
    (this.bar.layers[this.layer] ?? []).push(event);
  }

  change(change: Omit<AbcChange, 'eventIndex'>): void {
    if (change.meter !== undefined && !this.hasContent()) this.bar.meter = change.meter;
    this.bar.changes.push({ ...change, eventIndex: this.bar.layers[0]?.length ?? 0 });
  }

  /** Adds to the end of the last bar that holds anything. */
  changeAtEnd(change: Omit<AbcChange, 'eventIndex'>): void {
    const last = this.hasContent() ? this.bar : this.voice.bars.at(-1);
    last?.changes.push({ ...change, eventIndex: last.layers[0]?.length ?? 0 });
  }

  /** Goes back by so many bar lines, to lay what follows over what stands there. */
  startOverlay(barCount: number): void {
    this.accidentals.clear();
    const before = this.overlaid === null ? this.voice.bars.length : this.overlaid.next;
    const back = this.hasContent() ? barCount - 1 : barCount;
    const from = Math.max(0, before - back);
    if (from < before) {
      if (this.hasContent()) this.close();
      const resume = this.overlaid?.resume ?? this.bar;
      this.overlaid = { next: from, resume };
      this.bar = this.voice.bars[from] ?? this.bar;
    }
    this.openLayer();
  }

  /** A layer beside those that the bar has. */
  private openLayer(): void {
    this.layer = this.bar.layers.length;
    this.bar.layers.push([]);
  }

  startEnding(text: string): void {
    if (this.hasContent()) this.close();
    const before = this.voice.bars.at(-1);
    if (this.isEndingOpen && before !== undefined) before.stopsEnding = true;
    this.bar.endings = endingsOf(text, this.lastEnding);
    this.bar.endingText = text;
    this.lastEnding = this.bar.endings.at(-1) ?? 0;
    this.isEndingOpen = true;
  }

  readLine(text: string): void {
    const signs = signsOfBarLine(text);
    const ended = this.ended();
    if (ended !== undefined) {
      ended.repeatTimes = Math.max(ended.repeatTimes, signs.repeatTimes);
      ended.style = signs.style ?? ended.style;
      if (this.isEndingOpen && signs.closesEnding) {
        ended.stopsEnding = true;
        this.isEndingOpen = false;
      }
    }
    if (signs.startsRepeat) {
      this.bar.startsRepeat = true;
      this.lastEnding = 0;
    }
  }

  /** The bar that a bar line ends, closed if it holds anything. */
  private ended(): AbcBar | undefined {
    const { overlaid } = this;
    const place = overlaid === null ? -1 : overlaid.next;
    if (this.hasContent()) this.close();
    return this.voice.bars.at(place);
  }

  close(): void {
    const { overlaid } = this;
    this.accidentals.clear();
    this.layer = 0;
    if (overlaid === null) {
      this.voice.bars.push(this.bar);
      this.bar = emptyBar(this.setting.meter);
      return;
    }
    overlaid.next += 1;
    const next = this.voice.bars[overlaid.next];
    this.bar = next ?? overlaid.resume;
    if (next === undefined) this.overlaid = null;
    else this.openLayer();
  }

  /** Ends the voice. */
  finish(): void {
    if (this.hasContent()) this.close();
    const last = this.voice.bars.at(-1);
    if (this.isEndingOpen && last !== undefined) last.stopsEnding = true;
  }
}
