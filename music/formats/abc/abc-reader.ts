import { directiveOf } from './abc-directives.ts';
import type { AbcVoice } from './abc-events.ts';
import { keyOf } from './abc-key.ts';
import type { AbcLog } from './abc-log.ts';
import { setLyrics, type LyricPlace } from './abc-lyrics.ts';
import { sayQuoted } from './abc-pending.ts';
import { Replacements, type ReplacedLine } from './abc-replacements.ts';
import { setSymbols } from './abc-symbol-line.ts';
import { plainText } from './abc-text.ts';
import { lengthOf, meterOf, tempoOf } from './abc-time.ts';
import { tokensOf } from './abc-tokens.ts';
import type { AbcLine, AbcTune } from './abc-tunes.ts';
import { openingState, TuneVoices } from './abc-voices.ts';

/** A tune as it was read. */
export interface AbcScore {
  readonly titles: readonly string[];
  readonly composers: readonly string[];
  /** Fields about the tune that are not music, by their letter. */
  readonly about: readonly (readonly [letter: string, text: string])[];
  readonly voices: readonly AbcVoice[];
  /** In which order the tune's parts are played; null where the header says none. */
  readonly partOrder: { readonly text: string; readonly lineNumber: number; readonly column: number } | null;
  /** By voice: slurs that never end. */
  readonly unendedSlurs: ReadonlyMap<AbcVoice, ReadonlySet<number>>;
}

/** Fields that tell about a tune. **Source** ABC 2.1, information fields, from memory. */
const aboutFields = new Set(['A', 'B', 'D', 'F', 'G', 'H', 'N', 'O', 'R', 'S', 'W', 'Z']);

/** Chords between plus signs, as they were written before brackets; what is a dynamic stays a decoration. **Source** ABC 1.6, from memory. */
const withOldChords = (text: string): string =>
  text.replace(/\+((?:(?:\^\^?|__?|=)?[A-Ga-g][,']*(?:\d*\/+\d*|\d+)?){2,})\+/g, (whole, notes: string) =>
    /^f+$/.test(notes) ? whole : `[${notes}]`,
  );

/** Reads the lines of one tune. */
class TuneReader {
  readonly titles: string[] = [];
  readonly composers: string[] = [];
  readonly about: [string, string][] = [];
  private verse = 0;
  /** Where the words of the present verse have come to. */
  private words: LyricPlace | null = null;
  private partOrder: AbcScore['partOrder'] = null;
  private readonly replacements = new Replacements();
  private continues = false;
  private lastField = '';
  private hasLineBreakSign = false;
  private readonly log: AbcLog;
  private readonly state = openingState();
  private readonly voices: TuneVoices;

  constructor(log: AbcLog) {
    this.log = log;
    this.voices = new TuneVoices(this.state, log);
  }

  readLine({ text, lineNumber }: AbcLine): void {
    if (text.startsWith('%%')) {
      this.readDirective(text.slice(2).trim(), lineNumber);
      return;
    }
    if (text.startsWith('%') || text.trim() === '') return;
    const [, letter, content = ''] = /^([A-Za-z+]):(?!\|)(.*)$/.exec(text) ?? [];
    if (letter === undefined) {
      this.readMusic(text, lineNumber);
      return;
    }
    const field = letter === '+' ? this.lastField : letter;
    const value = /^[wW]$/.test(field) ? content : content.replace(/(^|[^\\])%.*$/, '$1');
    this.lastField = field;
    if (letter === '+' && this.goOn(field, value.trim(), lineNumber)) return;
    this.readField(field, value.trim(), lineNumber, 3, false);
  }

  /** A `+:` line makes the field before it longer. False where that field has nothing to go on with. **Source** ABC 2.1, field continuation, from memory. */
  private goOn(field: string, text: string, lineNumber: number): boolean {
    const longer = (texts: string[]): boolean => {
      const last = texts.pop();
      texts.push(last === undefined ? plainText(text) : `${last} ${plainText(text)}`);
      return true;
    };
    if (field === 'T') return longer(this.titles);
    if (field === 'C') return longer(this.composers);
    if (field === 'w' && this.words !== null) return this.setWords(text, this.words, lineNumber);
    const last = this.about.at(-1);
    if (last?.[0] !== field) return false;
    last[1] = `${last[1]} ${plainText(text)}`;
    return true;
  }

  private readDirective(text: string, lineNumber: number): void {
    const directive = directiveOf(text);
    if (directive.kind === 'reach') this.voices.setReach(directive.reach);
    else if (directive.kind === 'lineBreaks') this.hasLineBreakSign = directive.hasExclamation;
    else if (directive.kind === 'unread')
      this.log.add(
        'element-left-out',
        'note',
        `The instruction “${text.slice(0, 40)}” is about print or playback and was left out.`,
        lineNumber,
        1,
      );
  }

  private readMusic(text: string, lineNumber: number): void {
    if (!this.state.isBody) {
      this.log.add(
        'element-left-out',
        'warning',
        'A line before the key (K:) is neither a field nor music and was left out.',
        lineNumber,
        1,
      );
      return;
    }
    // What is laid over bars before it belongs to their line.
    if (!this.continues && !/^\s*&/.test(text)) {
      this.voices.voice().lineNotes = [];
      this.verse = 0;
    }
    const written = withOldChords(this.hasLineBreakSign ? text.replaceAll('!', ' ') : text);
    const line = this.replaced(written, lineNumber);
    for (const found of tokensOf(line.text)) {
      const token = { ...found, column: line.columnAt(found.column) };
      if (token.kind === 'field') this.readField(token.letter, token.text, lineNumber, token.column, true);
      else this.voices.voice().read(token, lineNumber);
    }
    this.voices.voice().endBeam();
    this.continues = /\\\s*(%.*)?$/.test(text);
  }

  private replaced(text: string, lineNumber: number): ReplacedLine {
    const line = this.replacements.applied(text);
    if (line !== null) return line;
    this.log.add(
      'element-left-out',
      'warning',
      'The macros of this line were left out: with them the tune is too long.',
      lineNumber,
      1,
    );
    return { text, columnAt: (column) => column };
  }

  private readField(letter: string, text: string, lineNumber: number, column: number, isInline: boolean): void {
    if (letter === 'X') return;
    if (letter === 'T') this.titles.push(plainText(text));
    else if (letter === 'C') this.composers.push(plainText(text));
    else if (letter === 'M') this.readMeter(text, lineNumber, column);
    else if (letter === 'L') this.readUnitLength(text, lineNumber, column);
    else if (letter === 'Q') this.readTempo(text, lineNumber, column);
    else if (letter === 'K') this.readKey(text, lineNumber, column);
    else if (letter === 'V') this.voices.choose(text, isInline, { lineNumber, column });
    else if (letter === 'I') this.readDirective(text, lineNumber);
    else if (letter === 'P') this.readSection(text, lineNumber, column);
    else if (letter === 'w') this.readWords(text, lineNumber, column);
    else if (letter === 's') this.readSymbols(text, lineNumber, column);
    else if (letter === 'm' || letter === 'U') this.readReplacement(letter, text, lineNumber, column);
    else if (letter === 'r')
      return; // a remark, as % is
    else if (aboutFields.has(letter)) this.about.push([letter, plainText(text)]);
    else
      this.log.add(
        'element-left-out',
        'note',
        `The field “${letter}:” is not read; it was left out.`,
        lineNumber,
        column,
      );
  }

  private readMeter(text: string, lineNumber: number, column: number): void {
    const meter = meterOf(text);
    if (meter === null) {
      this.log.add(
        'value-repaired',
        'warning',
        `The meter “${text}” is not understood; the one before it holds.`,
        lineNumber,
        column,
      );
      return;
    }
    this.state.meter = this.state.isBody ? this.state.meter : meter;
    for (const builder of this.voices.targets()) {
      builder.setting.meter = meter;
      if (this.state.isBody) builder.change({ meter });
    }
  }

  private readUnitLength(text: string, lineNumber: number, column: number): void {
    const length = lengthOf(text);
    if (length === null) {
      this.log.add(
        'value-repaired',
        'warning',
        `The note length “${text}” is not understood; the one before it holds.`,
        lineNumber,
        column,
      );
      return;
    }
    if (!this.state.isBody) this.state.unitLength = length;
    for (const builder of this.voices.targets()) builder.setting.unitLength = length;
  }

  private readTempo(text: string, lineNumber: number, column: number): void {
    if (!this.state.isBody) {
      this.state.tempoText = text;
      return;
    }
    const tempo = tempoOf(text, this.voices.voice().setting.unitLength);
    if (tempo.quartersPerMinute === null && tempo.words === '')
      this.log.add(
        'value-repaired',
        'warning',
        `The tempo “${text}” is not understood and was left out.`,
        lineNumber,
        column,
      );
    else this.voices.voice().change({ tempo });
  }

  private readKey(text: string, lineNumber: number, column: number): void {
    const key = keyOf(text);
    if (key === null)
      this.log.add(
        'value-repaired',
        'warning',
        `The key “${text}” is not understood; the one before it holds.`,
        lineNumber,
        column,
      );
    this.voices.restaff(text, { lineNumber, column });
    const isOnlyClef = key !== null && !/^([A-H]|none)/.test(text.trim()) && text.trim() !== '';
    if (this.state.isBody) {
      const builder = this.voices.voice();
      if (key === null || isOnlyClef) return;
      builder.setting.key = key;
      builder.change({ key });
      return;
    }
    if (key !== null) this.state.key = key;
    this.voices.beginBody();
  }

  private readSection(text: string, lineNumber: number, column: number): void {
    if (this.state.isBody) this.voices.voice().change({ section: text });
    else this.partOrder = { text, lineNumber, column };
  }

  private readWords(text: string, lineNumber: number, column: number): void {
    this.verse += 1;
    this.words = {
      notes: this.voices.voice().lineNotes,
      verse: this.verse,
      at: 0,
      bar: null,
      isWithin: false,
      last: null,
    };
    this.setWords(text, this.words, lineNumber, column);
  }

  private setWords(text: string, place: LyricPlace, lineNumber: number, column = 3): true {
    const left = setLyrics(plainText(text), place);
    if (left > 0)
      this.log.add(
        'element-left-out',
        'warning',
        `Syllables without a note were left out: ${left}.`,
        lineNumber,
        column,
      );
    return true;
  }

  private readSymbols(text: string, lineNumber: number, column: number): void {
    const { beyond, unknown } = setSymbols(text, this.voices.voice().lineNotes, sayQuoted);
    if (beyond > 0)
      this.log.add(
        'element-left-out',
        'warning',
        `Symbols without a note were left out: ${beyond}.`,
        lineNumber,
        column,
      );
    if (unknown.length > 0)
      this.log.add(
        'element-left-out',
        'warning',
        `Not understood in a line of symbols and left out: ${unknown.slice(0, 5).join(' ')}`,
        lineNumber,
        column,
      );
  }

  private readReplacement(letter: 'm' | 'U', text: string, lineNumber: number, column: number): void {
    const isRead = letter === 'm' ? this.replacements.define(text) : this.replacements.defineLetter(text);
    if (isRead) return;
    const what = letter === 'm' ? 'macro' : 'symbol of the user';
    this.log.add(
      'element-left-out',
      'warning',
      `The ${what} “${text}” is not understood and was left out.`,
      lineNumber,
      column,
    );
  }

  finish(lineNumber: number): AbcScore {
    for (const builder of this.voices.all) builder.finish(lineNumber);
    const builders = this.voices.all.filter(({ voice }) => voice.bars.length > 0);
    return {
      titles: this.titles,
      composers: this.composers,
      about: this.about,
      voices: builders.map(({ voice }) => voice),
      partOrder: this.partOrder,
      unendedSlurs: new Map(builders.map((builder) => [builder.voice, builder.unendedSlurs])),
    };
  }
}

/** A tune as voices of bars. */
export function readTune(tune: AbcTune, log: AbcLog): AbcScore {
  const reader = new TuneReader(log);
  if (tune.resumedAt !== null)
    log.add(
      'value-repaired',
      'warning',
      'An empty line ends a tune, and music goes on after it; it was read as part of the tune.',
      tune.resumedAt,
      1,
    );
  for (const line of tune.lines) reader.readLine(line);
  return reader.finish(tune.lines.at(-1)?.lineNumber ?? 1);
}
