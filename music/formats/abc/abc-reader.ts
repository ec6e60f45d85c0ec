import type { Fraction } from '../../basis/fraction.ts';
import type { AccidentalReach } from './abc-accidentals.ts';
import type { AbcVoice } from './abc-events.ts';
import { keyOf, staffingOf, type AbcKey } from './abc-key.ts';
import { setLyrics } from './abc-lyrics.ts';
import type { AbcLog } from './abc-log.ts';
import { impliedLength, lengthOf, meterOf, tempoOf, type AbcMeter, type AbcTempo } from './abc-time.ts';
import { tokensOf } from './abc-tokens.ts';
import type { AbcLine, AbcTune } from './abc-tunes.ts';
import { Replacements, type ReplacedLine } from './abc-replacements.ts';
import { setSymbols } from './abc-symbol-line.ts';
import { sayQuoted, VoiceBuilder, type VoiceSetting } from './abc-voice.ts';

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

interface TuneState {
  key: AbcKey;
  meter: AbcMeter;
  /** Null where L: is not given and the meter implies it. */
  unitLength: Fraction | null;
  octaves: number;
  reach: AccidentalReach;
  tempo: AbcTempo | null;
  tempoText: string | null;
  isBody: boolean;
}

/** Reads the lines of one tune. */
class TuneReader {
  readonly titles: string[] = [];
  readonly composers: string[] = [];
  readonly about: [string, string][] = [];
  private readonly builders = new Map<string, VoiceBuilder>();
  private current: VoiceBuilder | null = null;
  private staffing: { readonly clef: AbcVoice['clef']; readonly transpose: number | null } = {
    clef: null,
    transpose: null,
  };
  private verse = 0;
  private partOrder: AbcScore['partOrder'] = null;
  private readonly replacements = new Replacements();
  private continues = false;
  private lastField = '';
  private readonly log: AbcLog;
  private readonly state: TuneState = {
    key: { fifths: 0, mode: null, alters: {}, isExplicit: false },
    meter: { meter: { beats: [4], beatUnit: 4 }, symbol: null },
    unitLength: null,
    octaves: 0,
    reach: 'pitch',
    tempo: null,
    tempoText: null,
    isBody: false,
  };

  constructor(log: AbcLog) {
    this.log = log;
  }

  private unitLength(): Fraction {
    return this.state.unitLength ?? impliedLength(this.state.meter.meter);
  }

  private builderOf(id: string): VoiceBuilder {
    const known = this.builders.get(id);
    if (known !== undefined) return known;
    const { key, meter, octaves, reach } = this.state;
    const setting: VoiceSetting = { key, meter, unitLength: this.unitLength(), octaves, reach };
    const { clef, transpose } = this.staffing;
    const voice: AbcVoice = { id, name: '', clef, transpose: transpose ?? 0, bars: [] };
    setting.octaves += clef?.octaves ?? 0;
    const builder = new VoiceBuilder(voice, setting, this.log);
    if (this.state.isBody) builder.change({ key, meter });
    this.builders.set(id, builder);
    return builder;
  }

  private voice(): VoiceBuilder {
    this.current ??= [...this.builders.values()][0] ?? this.builderOf('1');
    return this.current;
  }

  readLine({ text, lineNumber }: AbcLine): void {
    if (text.startsWith('%%')) {
      this.readDirective(text, lineNumber);
      return;
    }
    if (text.startsWith('%') || text.trim() === '') return;
    const [, letter, content = ''] = /^([A-Za-z+]):(?!\|)(.*)$/.exec(text) ?? [];
    if (letter === undefined) {
      this.readMusic(text, lineNumber);
      return;
    }
    const isWords = letter === 'w' || letter === 'W' || (letter === '+' && /^[wW]$/.test(this.lastField));
    const value = isWords ? content : content.replace(/(^|[^\\])%.*$/, '$1');
    const field = letter === '+' ? this.lastField : letter;
    this.lastField = field;
    this.readField(field, value.trim(), lineNumber, 3, false);
  }

  private readDirective(text: string, lineNumber: number): void {
    const [, reach] = /^%%propagate-accidentals\s+(not|octave|pitch)\b/.exec(text) ?? [];
    if (reach === undefined) {
      this.log.add(
        'element-left-out',
        'note',
        `The instruction “${text.slice(2, 42).trim()}” is about print or playback and was left out.`,
        lineNumber,
        1,
      );
      return;
    }
    this.state.reach = reach as AccidentalReach;
    for (const { setting } of this.builders.values()) setting.reach = this.state.reach;
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
    if (!this.continues) for (const builder of [this.voice()]) builder.lineNotes = [];
    if (!this.continues) this.verse = 0;
    const line = this.replaced(text, lineNumber);
    for (const found of tokensOf(line.text)) {
      const token = { ...found, column: line.columnAt(found.column) };
      if (token.kind === 'field') this.readField(token.letter, token.text, lineNumber, token.column, true);
      else this.voice().read(token, lineNumber);
    }
    this.voice().endBeam();
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
    if (letter === 'T') this.titles.push(text);
    else if (letter === 'C') this.composers.push(text);
    else if (letter === 'M') this.readMeter(text, lineNumber, column);
    else if (letter === 'L') this.readUnitLength(text, lineNumber, column);
    else if (letter === 'Q') this.readTempo(text, lineNumber, column);
    else if (letter === 'K') this.readKey(text, lineNumber, column);
    else if (letter === 'V') this.readVoice(text, isInline);
    else if (letter === 'P') this.readSection(text, lineNumber, column);
    else if (letter === 'w') this.readWords(text, lineNumber, column);
    else if (letter === 's') this.readSymbols(text, lineNumber, column);
    else if (letter === 'm' || letter === 'U') this.readReplacement(letter, text, lineNumber, column);
    else if (letter === 'r')
      return; // a remark, as % is
    else if (aboutFields.has(letter)) this.about.push([letter, text]);
    else
      this.log.add(
        'element-left-out',
        'note',
        `The field “${letter}:” is not read; it was left out.`,
        lineNumber,
        column,
      );
  }

  private targets(): VoiceBuilder[] {
    return this.state.isBody ? [this.voice()] : [...this.builders.values()];
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
    for (const builder of this.targets()) {
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
    for (const builder of this.targets()) builder.setting.unitLength = length;
  }

  private readTempo(text: string, lineNumber: number, column: number): void {
    if (!this.state.isBody) {
      this.state.tempoText = text;
      return;
    }
    const tempo = tempoOf(text, this.voice().setting.unitLength);
    if (tempo.quartersPerMinute === null && tempo.words === '')
      this.log.add(
        'value-repaired',
        'warning',
        `The tempo “${text}” is not understood and was left out.`,
        lineNumber,
        column,
      );
    else this.voice().change({ tempo });
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
    const { clef, octaves, transpose } = staffingOf(text);
    const isOnlyClef = key !== null && !/^([A-H]|none)/.test(text.trim()) && text.trim() !== '';
    if (this.state.isBody) {
      const builder = this.voice();
      if (key !== null && !isOnlyClef) builder.setting.key = key;
      if (clef !== null) builder.setting.octaves = (octaves ?? 0) + clef.octaves;
      builder.change({ ...(key === null || isOnlyClef ? {} : { key }), ...(clef === null ? {} : { clef }) });
      return;
    }
    if (key !== null) this.state.key = key;
    this.state.octaves = octaves ?? 0;
    this.staffing = { clef, transpose };
    this.beginBody(clef);
  }

  /** The header ends with the key: voices that were named before it get what it says. */
  private beginBody(clef: AbcVoice['clef']): void {
    const { key, meter, octaves, reach, tempoText } = this.state;
    for (const builder of this.builders.values()) {
      const { setting, voice } = builder;
      Object.assign(setting, { key, meter, reach, unitLength: this.unitLength() });
      builder.change({ key, meter });
      voice.clef ??= clef;
      setting.octaves += octaves + (voice.clef?.octaves ?? 0);
    }
    this.state.isBody = true;
    if (tempoText !== null) {
      const tempo = tempoOf(tempoText, this.unitLength());
      const isTold = tempo.quartersPerMinute !== null || tempo.words !== '';
      if (isTold) ([...this.builders.values()][0] ?? this.builderOf('1')).change({ tempo });
    }
  }

  private readVoice(text: string, isInline: boolean): void {
    const [, id = '1', rest = ''] = /^(\S+)\s*(.*)$/s.exec(text) ?? [];
    const isKnown = this.builders.has(id);
    const isFallback = this.builders.size === 1 && this.current === null && this.state.isBody && !isKnown;
    const builder = isFallback ? this.renamed(id) : this.builderOf(id);
    const [, quoted, plain] = /\b(?:name|nm)=(?:"([^"]*)"|(\S+))/.exec(rest) ?? [];
    builder.voice.name = quoted ?? plain ?? builder.voice.name;
    const { clef, octaves, transpose } = staffingOf(rest.replace(/\b(name|nm|snm|subname)=("[^"]*"|\S+)/g, ''));
    if (clef !== null) {
      if (this.state.isBody) builder.setting.octaves += clef.octaves - (builder.voice.clef?.octaves ?? 0);
      if (builder.voice.bars.length === 0) builder.voice.clef = clef;
      else builder.change({ clef });
    }
    if (octaves !== null) builder.setting.octaves += octaves;
    if (transpose !== null) builder.voice.transpose = transpose;
    if (!this.state.isBody) return;
    if (!isInline) builder.lineNotes = [];
    this.current = builder;
  }

  /** A voice that was made for the tempo of the header before any voice was named takes the first name that comes. */
  private renamed(id: string): VoiceBuilder {
    const [only] = [...this.builders.values()];
    const isFresh = only !== undefined && only.voice.bars.length === 0 && only.voice.id === '1';
    if (!isFresh) return this.builderOf(id);
    this.builders.clear();
    this.builders.set(id, only);
    return only;
  }

  private readSection(text: string, lineNumber: number, column: number): void {
    if (this.state.isBody) this.voice().change({ section: text });
    else this.partOrder = { text, lineNumber, column };
  }

  private readWords(text: string, lineNumber: number, column: number): void {
    this.verse += 1;
    const left = setLyrics(text, this.voice().lineNotes, this.verse);
    if (left > 0)
      this.log.add(
        'element-left-out',
        'warning',
        `Syllables without a note were left out: ${left}.`,
        lineNumber,
        column,
      );
  }

  private readSymbols(text: string, lineNumber: number, column: number): void {
    const { beyond, unknown } = setSymbols(text, this.voice().lineNotes, sayQuoted);
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
    for (const builder of this.builders.values()) builder.finish(lineNumber);
    const builders = [...this.builders.values()].filter(({ voice }) => voice.bars.length > 0);
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
  for (const line of tune.lines) reader.readLine(line);
  return reader.finish(tune.lines.at(-1)?.lineNumber ?? 1);
}
