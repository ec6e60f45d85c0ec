import { fraction, type Fraction } from '../../basis/fraction.ts';
import type { Pitch } from '../../basis/pitch.ts';
import {
  emptyBar,
  type AbcAnnotation,
  type AbcBar,
  type AbcChange,
  type AbcEvent,
  type AbcGrace,
  type AbcNote,
  type AbcVoice,
} from './abc-events.ts';
import { SaidAccidentals, type AccidentalReach } from './abc-accidentals.ts';
import { endingsOf, signsOfBarLine } from './abc-bar-lines.ts';
import type { AbcKey } from './abc-key.ts';
import type { AbcLog } from './abc-log.ts';
import { factorOf, times, type AbcMeter } from './abc-time.ts';
import { Tuplets } from './abc-tuplets.ts';
import type { AbcToken, NoteToken } from './abc-tokens.ts';

/** What holds for a voice from here on. */
export interface VoiceSetting {
  key: AbcKey;
  meter: AbcMeter;
  unitLength: Fraction;
  octaves: number;
  reach: AccidentalReach;
}

interface Pending {
  graces: AbcGrace[];
  hasGraceSlash: boolean;
  decorations: string[];
  chordSymbols: string[];
  annotations: AbcAnnotation[];
  slurStarts: number[];
}

const nothingPending = (): Pending => ({
  graces: [],
  hasGraceSlash: false,
  decorations: [],
  chordSymbols: [],
  annotations: [],
  slurStarts: [],
});

const tieKey = ({ step, octave }: Pitch): string => `${step}${octave}`;

/** Puts a text in quotes where it belongs: words beside the note where a sign says where, else a chord symbol. */
export function sayQuoted(at: Pick<AbcEvent, 'chordSymbols' | 'annotations'>, text: string): void {
  const [, sign = '', words = ''] = /^([\^_<>@]?)(.*)$/s.exec(text) ?? [];
  if (sign === '') at.chordSymbols.push(words.trim());
  else
    at.annotations.push({
      text: words.replace(/^[-\d.,\s]*(?=[^\d.,\s-])/, sign === '@' ? '' : '$&'),
      placement: sign === '_' ? 'below' : 'above',
    });
}

/** Builds the bars of one voice from its tokens. */
export class VoiceBuilder {
  readonly voice: AbcVoice;
  readonly setting: VoiceSetting;
  /** The notes of the present line of music, for the words under it, each with its bar's index. */
  lineNotes: { readonly event: AbcEvent; readonly barIndex: number }[] = [];
  private bar: AbcBar;
  private layer = 0;
  private pending = nothingPending();
  private readonly accidentals = new SaidAccidentals();
  private openTies = new Map<string, AbcNote>();
  private readonly tuplets = new Tuplets();
  private broken: { readonly isLongFirst: boolean; readonly count: number } | null = null;
  private lastEvent: AbcEvent | null = null;
  private openSlurs: number[] = [];
  private slurCount = 0;
  private chord: { notes: AbcNote[]; length: Fraction | null; column: number } | null = null;
  private isInGrace = false;
  /** How many notes of a chord of grace notes there are so far; null outside of one. */
  private graceChord: number | null = null;
  private isEndingOpen = false;
  private readonly log: AbcLog;

  constructor(voice: AbcVoice, setting: VoiceSetting, log: AbcLog) {
    this.voice = voice;
    this.setting = setting;
    this.bar = emptyBar(setting.meter);
    this.log = log;
  }

  private hasContent(): boolean {
    return this.bar.layers.some((layer) => layer.length > 0);
  }

  change(change: Omit<AbcChange, 'eventIndex'>): void {
    if (change.meter !== undefined && !this.hasContent()) this.bar.meter = change.meter;
    this.bar.changes.push({ ...change, eventIndex: this.bar.layers[0]?.length ?? 0 });
  }

  read(token: AbcToken, lineNumber: number): void {
    if (token.kind === 'note') this.readNote(token, token.column, lineNumber);
    else if (token.kind === 'rest') this.readRest(token, lineNumber);
    else if (this.isInGrace && token.kind === 'chordStart') this.graceChord = 0;
    else if (this.isInGrace && token.kind === 'chordEnd') this.graceChord = null;
    else if (token.kind === 'chordStart') this.chord = { notes: [], length: null, column: token.column };
    else if (token.kind === 'chordEnd') this.endChord(token, lineNumber);
    else if (token.kind === 'bar') this.readBar(token.text, token.endings);
    else if (token.kind === 'ending') this.startEnding(token.endings);
    else if (token.kind === 'space') this.endBeam();
    else if (token.kind === 'overlay') this.startOverlay();
    else if (token.kind === 'tuplet') this.tuplets.start(token, this.setting.meter);
    else if (token.kind === 'broken') this.startBroken(token, lineNumber);
    else if (token.kind === 'slurEnd') this.endSlur(token, lineNumber);
    else if (token.kind === 'unknown') this.tellUnknown(token.text, lineNumber, token.column);
    else this.readBeforeNote(token);
  }

  /** A beam goes no further: white space or the end of a line of music. */
  endBeam(): void {
    if (this.lastEvent !== null && !this.isInGrace && this.chord === null) this.lastEvent.endsBeam = true;
  }

  /** What waits for the note after it. */
  private readBeforeNote(token: AbcToken): void {
    if (token.kind === 'graceStart') {
      this.isInGrace = true;
      this.pending.hasGraceSlash = token.hasSlash;
    } else if (token.kind === 'graceEnd') {
      this.isInGrace = false;
      this.graceChord = null;
    } else if (token.kind === 'slurStart') {
      this.slurCount += 1;
      this.openSlurs.push(this.slurCount);
      this.pending.slurStarts.push(this.slurCount);
    } else if (token.kind === 'quoted') sayQuoted(this.pending, token.text);
    else if (token.kind === 'decoration') this.pending.decorations.push(token.text);
  }

  private tellUnknown(text: string, lineNumber: number, column: number): void {
    this.log.add(
      'element-left-out',
      'warning',
      `“${text}” is not understood here and was left out.`,
      lineNumber,
      column,
    );
  }

  private alterOf(token: NoteToken, lineNumber: number, column: number): number {
    const { step, octave, accidental } = token;
    if (accidental !== null) {
      this.accidentals.say(step, octave, accidental, this.setting.reach);
      return accidental;
    }
    const tied = this.isInGrace ? undefined : this.openTies.get(tieKey({ step, octave, alter: 0 }));
    if (tied !== undefined) return tied.pitch.alter;
    const own = this.setting.key.alters[step] ?? 0;
    const said = this.accidentals.said(step, octave, this.setting.reach);
    if (said === null) return own;
    if (said.octave !== octave && said.alter !== own)
      this.log.add(
        'value-repaired',
        'note',
        `The accidental of ${step} was carried to another octave, as ABC 2.1 says.`,
        lineNumber,
        column,
      );
    return said.alter;
  }

  private readNote(token: NoteToken, column: number, lineNumber: number): void {
    const octave = token.octave + this.setting.octaves;
    const alter = this.alterOf({ ...token, octave }, lineNumber, column);
    const pitch = { step: token.step, alter, octave };
    if (this.isInGrace) {
      this.pending.graces.push({ pitch, isChordMember: (this.graceChord ?? 0) > 0 });
      if (this.graceChord !== null) this.graceChord += 1;
      return;
    }
    const note: AbcNote = { pitch, isTiedOn: token.isTied, isTiedFromBefore: false };
    const length = this.scaled(token.length, lineNumber, column);
    if (this.chord === null) this.addEvent([note], length, { lineNumber, column, isVisible: true });
    else {
      this.chord.notes.push(note);
      this.chord.length ??= length;
    }
  }

  private scaled(text: string, lineNumber: number, column: number): Fraction {
    const factor = factorOf(text);
    if (factor !== null) return factor;
    this.log.add('value-repaired', 'warning', `The length “${text}” is none; 1 was taken.`, lineNumber, column);
    return fraction(1);
  }

  private endChord(token: Extract<AbcToken, { kind: 'chordEnd' }>, lineNumber: number): void {
    const { chord } = this;
    this.chord = null;
    if (chord === null || chord.notes.length === 0) {
      this.log.add(
        'element-left-out',
        'warning',
        'A “]” closes no chord with notes and was left out.',
        lineNumber,
        token.column,
      );
      return;
    }
    for (const note of chord.notes) note.isTiedOn ||= token.isTied;
    const length = times(chord.length ?? fraction(1), this.scaled(token.length, lineNumber, token.column));
    this.addEvent(chord.notes, length, { lineNumber, column: chord.column, isVisible: true });
  }

  private readRest(token: Extract<AbcToken, { kind: 'rest' }>, lineNumber: number): void {
    const place = { lineNumber, column: token.column, isVisible: token.isVisible };
    const factor = this.scaled(token.length, lineNumber, token.column);
    if (!token.isWholeBars) {
      this.addEvent([], factor, place);
      return;
    }
    const count = Math.min(1000, Math.max(1, Math.round(factor.numerator / factor.denominator)));
    for (let bar = 0; bar < count; bar += 1) {
      if (bar > 0) this.closeBar();
      this.push({ ...this.blank([], fraction(1), place), isWholeBar: true });
    }
  }

  private blank(
    notes: readonly AbcNote[],
    printed: Fraction,
    place: { readonly lineNumber: number; readonly column: number; readonly isVisible: boolean },
  ): AbcEvent {
    const { pending } = this;
    this.pending = nothingPending();
    return {
      ...pending,
      ...place,
      notes,
      printed,
      tuplet: null,
      tupletEdge: null,
      isWholeBar: false,
      endsBeam: false,
      slurStops: [],
      syllables: [],
    };
  }

  private addEvent(
    notes: readonly AbcNote[],
    factor: Fraction,
    place: { readonly lineNumber: number; readonly column: number; readonly isVisible: boolean },
  ): void {
    let printed = times(factor, this.setting.unitLength);
    if (this.broken !== null) printed = times(printed, this.brokenFactor(!this.broken.isLongFirst, this.broken.count));
    this.broken = null;
    const event = this.blank(notes, printed, place);
    this.joinTies(event);
    this.tuplets.put(event);
    this.push(event);
    if (notes.length > 0) this.lineNotes.push({ event, barIndex: this.voice.bars.length });
  }

  private push(event: AbcEvent): void {
    (this.bar.layers[this.layer] ?? []).push(event);
    this.lastEvent = event;
  }

  private joinTies({ notes }: AbcEvent): void {
    if (notes.length === 0) return;
    const still = new Map<string, AbcNote>();
    for (const note of notes) {
      const before = this.openTies.get(tieKey(note.pitch));
      note.isTiedFromBefore = before?.pitch.alter === note.pitch.alter;
      if (note.isTiedOn) still.set(tieKey(note.pitch), note);
    }
    this.openTies = still;
  }

  private brokenFactor(isLong: boolean, count: number): Fraction {
    const parts = 2 ** count;
    return isLong ? fraction(2 * parts - 1, parts) : fraction(1, parts);
  }

  private startBroken({ isLongFirst, count, column }: Extract<AbcToken, { kind: 'broken' }>, lineNumber: number): void {
    if (this.lastEvent === null) {
      this.log.add(
        'element-left-out',
        'warning',
        'A broken rhythm follows no note and was left out.',
        lineNumber,
        column,
      );
      return;
    }
    this.lastEvent.printed = times(this.lastEvent.printed, this.brokenFactor(isLongFirst, count));
    this.broken = { isLongFirst, count };
  }

  private endSlur({ column }: AbcToken, lineNumber: number): void {
    const slur = this.openSlurs.pop();
    if (slur === undefined || this.lastEvent === null)
      this.log.add(
        'span-unresolved',
        'warning',
        'A slur ends here that begins nowhere; it was left out.',
        lineNumber,
        column,
      );
    else this.lastEvent.slurStops.push(slur);
  }

  private startOverlay(): void {
    this.layer += 1;
    this.bar.layers[this.layer] ??= [];
    this.accidentals.clear();
    this.openTies.clear();
  }

  private startEnding(text: string): void {
    if (this.hasContent()) this.closeBar();
    this.bar.endings = endingsOf(text);
    this.bar.endingText = text;
    this.isEndingOpen = true;
  }

  private readBar(text: string, endings: string): void {
    const signs = signsOfBarLine(text);
    if (this.hasContent()) this.closeBar();
    const ended = this.voice.bars.at(-1);
    if (ended !== undefined) {
      ended.repeatTimes = Math.max(ended.repeatTimes, signs.repeatTimes);
      ended.style = signs.style ?? ended.style;
      if (this.isEndingOpen && signs.closesEnding) {
        ended.stopsEnding = true;
        this.isEndingOpen = false;
      }
    }
    if (signs.startsRepeat) this.bar.startsRepeat = true;
    if (endings !== '') this.startEnding(endings);
  }

  private closeBar(): void {
    this.voice.bars.push(this.bar);
    this.bar = emptyBar(this.setting.meter);
    this.layer = 0;
    this.accidentals.clear();
  }

  /** Ends the voice; what is still open is told. */
  finish(lineNumber: number): void {
    if (this.hasContent()) this.closeBar();
    const last = this.voice.bars.at(-1);
    if (this.isEndingOpen && last !== undefined) last.stopsEnding = true;
    if (this.openSlurs.length > 0)
      this.log.add(
        'span-unresolved',
        'warning',
        `Slurs that never end in voice “${this.voice.id}” were left out: ${this.openSlurs.length}.`,
        lineNumber,
        1,
      );
  }

  /** The slurs that were never closed. */
  get unendedSlurs(): ReadonlySet<number> {
    return new Set(this.openSlurs);
  }
}
