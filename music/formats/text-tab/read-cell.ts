import type { Cell } from './bars-of-system.ts';
import type { FretSign, Link, StraySign } from './fret-sign.ts';
import type { TabLog } from './tab-log.ts';

/** What is carried on a string from bar to bar: the last note, and how the next one is reached. */
export interface StringState {
  last: FretSign | null;
  pending: Link | null;
  isTapPending: boolean;
}

/** A string before its first note. */
export const silentString = (): StringState => ({ last: null, pending: null, isTapPending: false });

const highestFret = 36;
const naturalHarmonicFrets = new Set([3, 4, 5, 7, 9, 12, 16, 19, 24]);
const wholeTone = 2;

/** Reads the signs of one string in one bar from left to right. */
export class CellReader {
  readonly frets: FretSign[] = [];
  readonly strays: StraySign[] = [];
  private at = 0;
  private readonly string: number;
  private readonly cell: Cell;
  private readonly state: StringState;
  private readonly log: TabLog;

  constructor(string: number, cell: Cell, state: StringState, log: TabLog) {
    this.string = string;
    this.cell = cell;
    this.state = state;
    this.log = log;
  }

  read(): this {
    while (this.at < this.cell.text.length) this.at += this.readSign(this.cell.text.slice(this.at));
    return this;
  }

  /** Reads what stands at the front and says how many columns it takes. */
  private readSign(rest: string): number {
    const sign = rest.charAt(0);
    if (sign === '-' || sign === ' ') return 1;
    const bracketed = /^(?:<(\d{1,2})>|\[(\d{1,2})\]|\((\d{1,2}|[xX])\)|\{(\d{1,2})\})/.exec(rest);
    if (bracketed !== null) return this.readBracketed(bracketed);
    if (/\d/.test(sign)) return this.readFret(/^\d+/.exec(rest)?.[0] ?? sign);
    if (/[xX]/.test(sign)) return this.add(null, 1);
    if (/[bB^]/.test(sign) && this.state.last !== null) return this.readBend(rest);
    if (/[rR]/.test(sign) && this.state.last?.bend != null) return this.readRelease(rest);
    if (/[hHpP]/.test(sign)) return this.readLegato(sign);
    if (/[/\\sS]/.test(sign)) return this.readSlide(rest);
    if (/[~vV]/.test(sign) && this.state.last !== null) return this.readVibrato(rest);
    if (/[tT]/.test(sign)) {
      this.state.isTapPending = true;
      return 1;
    }
    return this.readStray(rest);
  }

  private add(fret: number | null, width: number, more: Partial<FretSign> = {}): number {
    const { state } = this;
    const isLinked = fret !== null && state.last !== null && state.last.fret !== null;
    const sign: FretSign = {
      string: this.string,
      column: this.at,
      endColumn: this.at + width - 1,
      line: this.cell.line,
      index: this.cell.from + this.at,
      fret,
      isGhost: false,
      harmonic: null,
      hasVibrato: false,
      isTapped: state.isTapPending,
      bend: null,
      link: isLinked ? state.pending : null,
      linkToNext: null,
      slideIn: null,
      slideOut: null,
      ...more,
    };
    if (sign.link !== null && state.last !== null) state.last.linkToNext = sign.link;
    state.last = sign;
    state.pending = null;
    state.isTapPending = false;
    this.frets.push(sign);
    return width;
  }

  private readBracketed([all, angled, squared, round, curly]: RegExpExecArray): number {
    if (round !== undefined) {
      return this.add(/x/i.test(round) ? null : Number(round), all.length, { isGhost: true });
    }
    const fret = Number(angled ?? squared ?? curly);
    const isNatural = angled !== undefined || naturalHarmonicFrets.has(fret);
    return this.add(fret, all.length, { harmonic: isNatural ? 'natural' : 'artificial' });
  }

  /** One or two digits; more, or a number beyond the fingerboard, are several frets without a dash between them. */
  private readFret(digits: string): number {
    if (digits.length === 1 || (digits.length === 2 && Number(digits) <= highestFret && !digits.startsWith('0')))
      return this.add(Number(digits), digits.length);
    const two = digits.slice(0, 2);
    const width = Number(two) <= 24 && Number(two) >= 10 && digits.length !== 3 ? 2 : 1;
    const detail = `“${digits}” is no fret; it was read as ${width === 2 ? 'frets of two digits' : 'frets of one digit'} one after the other.`;
    this.log.add('value-repaired', 'warning', detail, this.cell.line, this.cell.from + this.at);
    return this.add(Number(digits.slice(0, width)), width);
  }

  private readBend(rest: string): number {
    const { last } = this.state;
    const match = /^[bB^]\(?(full|1\/2|½|\d{1,2})?\)?/.exec(rest);
    if (last === null || match === null) return 1;
    const isBentBefore = this.state.pending === 'pullOff';
    if (isBentBefore) this.state.pending = null;
    last.bend = { semitones: this.bendOf(last.fret ?? 0, match[1]), isReleased: false, isBentBefore };
    return match[0].length;
  }

  private bendOf(fret: number, target: string | undefined): number {
    if (target === '1/2' || target === '½') return 1;
    if (target === 'full') return wholeTone;
    const semitones = target === undefined ? NaN : Number(target) - fret;
    if (semitones > 0 && semitones <= 7) return semitones;
    const detail = 'A bend does not say how far; a whole tone was taken.';
    this.log.add('value-repaired', 'note', detail, this.cell.line, this.cell.from + this.at);
    return wholeTone;
  }

  private readRelease(rest: string): number {
    const { last } = this.state;
    if (last?.bend != null) last.bend = { ...last.bend, isReleased: true };
    return /^[rR]\(?(?:\d{1,2})?\)?/.exec(rest)?.[0].length ?? 1;
  }

  private readLegato(sign: string): number {
    if (this.state.last === null || this.state.last.fret === null) {
      const detail = `A “${sign}” has no note before it on its string; the next note is plucked.`;
      this.log.add('value-repaired', 'note', detail, this.cell.line, this.cell.from + this.at);
      return 1;
    }
    this.state.pending = /[hH]/.test(sign) ? 'hammerOn' : 'pullOff';
    return 1;
  }

  private touchesLast(): boolean {
    const { last } = this.state;
    return (
      last !== null &&
      last === this.frets.at(-1) &&
      last.fret !== null &&
      /[^-\s]/.test(this.cell.text.charAt(this.at - 1))
    );
  }

  private readSlide(rest: string): number {
    const { last } = this.state;
    const goesUp = rest.startsWith('/');
    const isPlainS = /^[sS]/.test(rest);
    const hasNext = /^.-{0,2}[(<[]?\d/.test(rest);
    if (hasNext && (this.touchesLast() || (isPlainS && last?.fret != null))) this.state.pending = 'slide';
    else if (hasNext && !isPlainS) {
      const width = /^.-*/.exec(rest)?.[0].length ?? 1;
      this.at += width;
      const taken = this.readSign(this.cell.text.slice(this.at));
      const next = this.frets.at(-1);
      if (next !== undefined) next.slideIn = goesUp ? 'fromBelow' : 'fromAbove';
      return taken;
    } else if (this.touchesLast() && last !== null) {
      if (/^.\s*-*$/.test(rest) && isPlainS) this.state.pending = 'slide';
      else last.slideOut = goesUp ? 'up' : 'down';
    } else return this.readStray(rest);
    return 1;
  }

  private readVibrato(rest: string): number {
    if (this.state.last !== null) this.state.last.hasVibrato = true;
    return /^[~vV]+/.exec(rest)?.[0].length ?? 1;
  }

  private readStray(rest: string): number {
    const text = /^[^-\s\d]+/.exec(rest)?.[0] ?? rest.charAt(0);
    const index = this.cell.from + this.at;
    this.strays.push({ text, column: this.at, line: this.cell.line, index });
    this.log.add(
      'kept-as-words',
      'warning',
      `“${text}” on a string is not understood; it was kept as words.`,
      this.cell.line,
      index,
    );
    return text.length;
  }
}
