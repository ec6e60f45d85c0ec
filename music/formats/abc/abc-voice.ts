import { fraction, type Fraction } from '../../basis/fraction.ts';
import type { AbcClef, AbcStaffing } from './abc-clefs.ts';
import type { AbcChange, AbcEvent, AbcNote, AbcVoice } from './abc-events.ts';
import { SaidAccidentals, type AccidentalReach } from './abc-accidentals.ts';
import type { AbcKey } from './abc-key.ts';
import type { AbcLog } from './abc-log.ts';
import { namesOf, nothingPending, sayQuoted, takeAtBarEnd } from './abc-pending.ts';
import { VoiceStaff } from './abc-staff.ts';
import { OpenTies } from './abc-ties.ts';
import { factorOf, times, type AbcMeter } from './abc-time.ts';
import { Tuplets } from './abc-tuplets.ts';
import type { AbcToken, NoteToken } from './abc-tokens.ts';
import { VoiceBars } from './abc-voice-bars.ts';

/** What holds for a voice from here on. */
export interface VoiceSetting {
  key: AbcKey;
  meter: AbcMeter;
  unitLength: Fraction;
  octaves: number;
  reach: AccidentalReach;
}

/** A chord that is being written. */
interface OpenChord {
  readonly notes: AbcNote[];
  length: Fraction | null;
  isUneven: boolean;
  readonly slurStops: number[];
  readonly column: number;
  readonly lineNumber: number;
}

const isSame = (a: Fraction, b: Fraction): boolean => a.numerator === b.numerator && a.denominator === b.denominator;

const isFinger = (name: string): boolean => /^[0-5]$/.test(name);

/** Builds the bars of one voice from its tokens. */
export class VoiceBuilder {
  readonly voice: AbcVoice;
  readonly setting: VoiceSetting;
  /** The notes of the present line of music, for the words under it, each with its bar's index. */
  lineNotes: { readonly event: AbcEvent; readonly barIndex: number }[] = [];
  private readonly bars: VoiceBars;
  private pending = nothingPending();
  private readonly accidentals = new SaidAccidentals();
  private readonly ties = new OpenTies();
  private readonly staff = new VoiceStaff();
  private readonly tuplets = new Tuplets();
  private broken: { readonly isLongFirst: boolean; readonly count: number } | null = null;
  private lastEvent: AbcEvent | null = null;
  private openSlurs: number[] = [];
  private slurCount = 0;
  private chord: OpenChord | null = null;
  private isInGrace = false;
  /** How many notes of a chord of grace notes there are so far; null outside of one. */
  private graceChord: number | null = null;
  private readonly log: AbcLog;

  constructor(voice: AbcVoice, setting: VoiceSetting, log: AbcLog) {
    this.voice = voice;
    this.setting = setting;
    this.bars = new VoiceBars(voice, setting, this.accidentals);
    this.log = log;
  }

  change(change: Omit<AbcChange, 'eventIndex'>): void {
    this.bars.change(change);
  }

  get clef(): AbcClef | null {
    return this.staff.clef;
  }

  /** Takes in what is said of the staff, from here on; as a default only what the voice does not say itself. */
  restaff(staffing: AbcStaffing, isDefault = false): void {
    const before = this.staff.clef;
    this.staff.take(staffing, isDefault);
    const { clef } = this.staff;
    const isStart = this.voice.bars.length === 0 && !this.bars.hasContent();
    this.setting.octaves = this.staff.octaves;
    if (isStart) Object.assign(this.voice, { clef, transpose: this.staff.transpose });
    else if (clef !== null && clef !== before) this.change({ clef });
  }

  read(token: AbcToken, lineNumber: number): void {
    if (token.kind === 'note') this.readNote(token, token.column, lineNumber);
    else if (token.kind === 'rest') this.readRest(token, lineNumber);
    else if (this.isInGrace && token.kind === 'chordStart') this.graceChord = 0;
    else if (this.isInGrace && token.kind === 'chordEnd') this.graceChord = null;
    else if (token.kind === 'chordStart') this.startChord(token.column, lineNumber);
    else if (token.kind === 'chordEnd') this.endChord(token, lineNumber);
    else if (token.kind === 'bar') this.readBar(token);
    else if (token.kind === 'ending') this.bars.startEnding(token.endings);
    else if (token.kind === 'space') this.endBeam();
    else if (token.kind === 'overlay') this.bars.startOverlay(token.bars);
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
    const tied = this.isInGrace ? null : this.ties.alterAt(this.bars.layer, step, octave);
    if (tied !== null) return tied;
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

  /** The octave of a note, brought into those that can be named. **Source** MusicXML 4.0, octave: 0 to 9. */
  private octaveOf(token: NoteToken, column: number, lineNumber: number): number {
    const said = token.octave + this.setting.octaves;
    const octave = Math.min(9, Math.max(0, said));
    if (octave !== said)
      this.log.add(
        'value-repaired',
        'warning',
        'A note lies beyond the octaves that can be written and was brought in by octaves.',
        lineNumber,
        column,
      );
    return octave;
  }

  private readNote(token: NoteToken, column: number, lineNumber: number): void {
    const octave = this.octaveOf(token, column, lineNumber);
    const alter = this.alterOf({ ...token, octave }, lineNumber, column);
    const pitch = { step: token.step, alter, octave };
    if (this.isInGrace) {
      this.pending.graces.push({ pitch, isChordMember: (this.graceChord ?? 0) > 0 });
      if (this.graceChord !== null) this.graceChord += 1;
      return;
    }
    const length = this.scaled(token.length, lineNumber, column);
    const note: AbcNote = { pitch, isTiedOn: token.isTied, isTiedFromBefore: false, fingers: this.ownFingers() };
    const { chord } = this;
    if (chord === null) this.addEvent([note], length, { lineNumber, column, isVisible: true });
    else {
      chord.notes.push(note);
      chord.length ??= length;
      chord.isUneven ||= !isSame(length, chord.length);
    }
  }

  /** The fingers told within a chord just before a note. */
  private ownFingers(): readonly string[] {
    if (this.chord === null) return [];
    const { decorations } = this.pending;
    this.pending.decorations = decorations.filter((name) => !isFinger(name));
    return decorations.filter(isFinger);
  }

  private scaled(text: string, lineNumber: number, column: number): Fraction {
    const factor = factorOf(text);
    if (factor !== null) return factor;
    this.log.add('value-repaired', 'warning', `The length “${text}” is none; 1 was taken.`, lineNumber, column);
    return fraction(1);
  }

  private startChord(column: number, lineNumber: number): void {
    this.endUnclosed();
    this.chord = { notes: [], length: null, isUneven: false, slurStops: [], column, lineNumber };
  }

  /** Ends a chord or grace notes that a bar line or another chord cuts off. */
  private endUnclosed(): void {
    const { chord } = this;
    if (chord !== null && chord.notes.length > 0) {
      const { lineNumber, column } = chord;
      this.log.add('value-repaired', 'warning', 'A chord is not closed; it was ended here.', lineNumber, column);
      this.endChord({ length: '', isTied: false, column }, lineNumber);
    }
    this.chord = null;
    this.isInGrace = false;
    this.graceChord = null;
  }

  private endChord(
    token: Pick<Extract<AbcToken, { kind: 'chordEnd' }>, 'length' | 'isTied' | 'column'>,
    lineNumber: number,
  ): void {
    const { chord } = this;
    this.chord = null;
    if (chord === null || chord.notes.length === 0) {
      this.tellUnknown(']', lineNumber, token.column);
      return;
    }
    const place = { lineNumber, column: chord.column };
    if (chord.isUneven)
      this.log.add(
        'value-repaired',
        'note',
        'The notes of a chord have lengths of their own; all got that of the first, as ABC 2.1 says.',
        place.lineNumber,
        place.column,
      );
    for (const note of chord.notes) note.isTiedOn ||= token.isTied;
    const length = times(chord.length ?? fraction(1), this.scaled(token.length, lineNumber, token.column));
    this.addEvent(chord.notes, length, { ...place, isVisible: true });
    this.lastEvent?.slurStops.push(...chord.slurStops);
  }

  private readRest(token: Extract<AbcToken, { kind: 'rest' }>, lineNumber: number): void {
    const place = { lineNumber, column: token.column, isVisible: token.isVisible };
    if (this.chord !== null || this.isInGrace) {
      this.log.add(
        'element-left-out',
        'note',
        'A rest within a chord or among grace notes was left out.',
        lineNumber,
        token.column,
      );
      return;
    }
    const factor = this.scaled(token.length, lineNumber, token.column);
    if (!token.isWholeBars) {
      this.addEvent([], factor, place);
      return;
    }
    const count = Math.min(1000, Math.max(1, Math.round(factor.numerator / factor.denominator)));
    for (let bar = 0; bar < count; bar += 1) {
      if (bar > 0) this.bars.close();
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
    this.ties.join(this.bars.layer, notes);
    this.tuplets.put(event);
    this.push(event);
    if (notes.length > 0 && this.bars.layer === 0) this.lineNotes.push({ event, barIndex: this.voice.bars.length });
  }

  private push(event: AbcEvent): void {
    this.bars.push(event);
    this.lastEvent = event;
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
    else (this.chord ?? this.lastEvent).slurStops.push(slur);
  }

  private readBar({ text, endings }: Extract<AbcToken, { kind: 'bar' }>): void {
    this.endUnclosed();
    const decorations = this.bars.hasContent() ? takeAtBarEnd(this.pending, false) : [];
    if (decorations.length > 0) this.bars.change({ decorations });
    this.bars.readLine(text);
    if (endings !== '') this.bars.startEnding(endings);
  }

  /** Ends the voice; what is still open is told. */
  finish(lineNumber: number): void {
    this.endUnclosed();
    this.tellPending(lineNumber);
    this.bars.finish();
    if (this.openSlurs.length > 0)
      this.log.add(
        'span-unresolved',
        'warning',
        `Slurs that never end in voice “${this.voice.id}” were left out: ${this.openSlurs.length}.`,
        lineNumber,
        1,
      );
  }

  /** What waits for a note that does not come: beside the last bar what can stand there, the rest told. */
  private tellPending(lineNumber: number): void {
    const decorations = takeAtBarEnd(this.pending, true);
    if (decorations.length > 0) this.bars.changeAtEnd({ decorations });
    const left = namesOf(this.pending);
    if (left.length > 0)
      this.log.add(
        'element-left-out',
        'warning',
        `No note follows that this belongs to; left out: ${left.slice(0, 5).join(', ')}.`,
        lineNumber,
        1,
      );
  }

  /** The slurs that were never closed. */
  get unendedSlurs(): ReadonlySet<number> {
    return new Set(this.openSlurs);
  }
}
