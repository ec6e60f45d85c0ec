import type { Fraction } from '../../basis/fraction.ts';
import { BarAccidentals } from '../musicxml-writer/accidentals.ts';
import { textElement } from '../musicxml-writer/text-element.ts';
import { harmonyElement, isChordSymbol } from '../text-tab/chord-symbols.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import { clefElement, keyElement, tempoElement, timeElement } from './abc-attributes.ts';
import { endingNumber, leftBarline, rightBarline } from './abc-barline-elements.ts';
import { withAbcBeams } from './abc-beams.ts';
import type { AbcBar, AbcChange, AbcEvent, AbcVoice } from './abc-events.ts';
import { quartersOf } from './abc-lengths.ts';
import type { AbcLog } from './abc-log.ts';
import { directionOf, marksOf } from './abc-marks.ts';
import { eventElements, type EventPiece, type NoteSetting } from './abc-note-elements.ts';
import { fullBar, type AbcMeter } from './abc-time.ts';
import { printedValues } from './abc-values.ts';

/** Gives each open slur the lowest number that is free. **Source** MusicXML 4.0, number-level: 1 to 16. */
class SlurNumbers {
  private readonly numbers = new Map<number, number>();
  private readonly unended: ReadonlySet<number>;

  constructor(unended: ReadonlySet<number>) {
    this.unended = unended;
  }

  of(slur: number): number | null {
    if (this.unended.has(slur)) return null;
    const known = this.numbers.get(slur);
    if (known !== undefined) {
      this.numbers.delete(slur);
      return known;
    }
    const taken = new Set(this.numbers.values());
    const free = Array.from({ length: 16 }, (_, index) => index + 1).find((number) => !taken.has(number)) ?? null;
    if (free !== null) this.numbers.set(slur, free);
    return free;
  }
}

/** What the measures of one part are made with. */
export interface MeasureSetting {
  readonly divisions: number;
  readonly isFirstPart: boolean;
  readonly labels: readonly string[];
  readonly hasPickup: boolean;
  readonly log: AbcLog;
}

/** Writes the measures of one voice. */
export class MeasureWriter {
  private fifths = 0;
  private isPercussion: boolean;
  /** The numbers of the ending that began last. */
  private ending = '1';
  private readonly slurs: SlurNumbers;
  private readonly voice: AbcVoice;
  private readonly setting: MeasureSetting;

  constructor(voice: AbcVoice, unended: ReadonlySet<number>, setting: MeasureSetting) {
    this.voice = voice;
    this.setting = setting;
    this.slurs = new SlurNumbers(unended);
    this.isPercussion = voice.clef?.sign === 'percussion';
  }

  private ticks(quarters: Fraction): number {
    return Math.max(1, Math.round((quarters.numerator * this.setting.divisions) / quarters.denominator));
  }

  private attributes(changes: readonly AbcChange[], isStart: boolean): XmlElement[] {
    const key = changes.findLast((change) => change.key !== undefined)?.key;
    const meter = changes.findLast((change) => change.meter !== undefined)?.meter;
    const clef = changes.findLast((change) => change.clef !== undefined)?.clef ?? (isStart ? this.voice.clef : null);
    if (key !== undefined) this.fifths = key.isExplicit ? 0 : key.fifths;
    if (clef !== null) this.isPercussion = clef.sign === 'percussion';
    const { transpose } = this.voice;
    const content = [
      ...(isStart ? [textElement('divisions', this.setting.divisions)] : []),
      ...(key === undefined ? [] : [keyElement(key)]),
      ...(meter === undefined ? [] : [timeElement(meter)]),
      ...(clef === null ? [] : [clefElement(clef)]),
      ...(isStart && transpose !== 0 ? [element('transpose', {}, [textElement('chromatic', transpose)])] : []),
    ];
    return content.length === 0 ? [] : [element('attributes', {}, content)];
  }

  private changesAt(bar: AbcBar, eventIndex: number, isStart: boolean): XmlElement[] {
    const changes = bar.changes.filter((change) => change.eventIndex === eventIndex);
    const directions = changes.flatMap(({ tempo, section, decorations }) => [
      ...(section === undefined ? [] : [directionOf(textElement('rehearsal', section))]),
      ...(tempo === undefined ? [] : [tempoElement(tempo)]),
      ...marksOf(decorations ?? []).directions,
    ]);
    return [...this.attributes(changes, isStart), ...directions];
  }

  private before(event: AbcEvent): XmlElement[] {
    const { directions, unknown } = marksOf(event.decorations);
    const { log } = this.setting;
    for (const name of unknown)
      log.add(
        'element-left-out',
        'warning',
        `The decoration “${name}” has no place in a score and was left out.`,
        event.lineNumber,
        event.column,
      );
    const symbols = event.chordSymbols.flatMap((text) => {
      if (text === '') return [];
      if (isChordSymbol(text)) return [harmonyElement(text)];
      log.add(
        'kept-as-words',
        'note',
        `“${text}” is no chord symbol that is known; it was kept as words.`,
        event.lineNumber,
        event.column,
      );
      return [directionOf(textElement('words', text))];
    });
    const words = event.annotations
      .filter(({ text }) => text.trim() !== '')
      .map(({ text, placement }) => directionOf(textElement('words', text.trim()), null, placement));
    return [...symbols, ...directions, ...words];
  }

  private pieces(event: AbcEvent, meter: AbcMeter): EventPiece[] {
    const values = event.isWholeBar ? [{ length: fullBar(meter), type: null, dots: 0 }] : printedValues(event.printed);
    return values.map((value, index) => ({
      event,
      value,
      ticks: this.ticks(quartersOf({ ...event, printed: value.length }, meter)),
      isFirst: index === 0,
      isLast: index === values.length - 1,
      beams: [],
    }));
  }

  private layer(
    bar: AbcBar,
    place: number,
    isStart: boolean,
  ): { readonly elements: XmlElement[]; readonly ticks: number } {
    const events = bar.layers[place] ?? [];
    const elements: XmlElement[] = [];
    let ticks = 0;
    let accidentals = new BarAccidentals(this.fifths);
    const beamed = withAbcBeams(events.map((event) => this.pieces(event, bar.meter)));
    for (const [index, event] of events.entries()) {
      if (place === 0) elements.push(...this.changesAt(bar, index, isStart && index === 0));
      if (index === 0) accidentals = new BarAccidentals(this.fifths);
      const setting: NoteSetting = {
        voice: place + 1,
        isPercussion: this.isPercussion,
        accidentals,
        slurNumber: (slur) => this.slurs.of(slur),
      };
      const pieces = beamed[index] ?? [];
      elements.push(...this.before(event), ...eventElements(pieces, setting));
      ticks += pieces.reduce((sum, piece) => sum + piece.ticks, 0);
    }
    if (place === 0) elements.push(...this.changesAt(bar, events.length, isStart && events.length === 0));
    return { elements, ticks };
  }

  /** The measure of the bar at an index. */
  measure(bar: AbcBar, index: number): XmlElement {
    const isStart = index === 0;
    const layers = bar.layers.map((_, place) => this.layer(bar, place, isStart));
    let ticksBefore = 0;
    const music = layers.flatMap(({ elements, ticks }, place) => {
      const backup =
        place === 0 || ticksBefore === 0 ? [] : [element('backup', {}, [textElement('duration', ticksBefore)])];
      ticksBefore = ticks;
      return [...backup, ...elements];
    });
    const isPickup = isStart && this.setting.hasPickup;
    const attributes = { number: this.setting.labels[index] ?? '', ...(isPickup ? { implicit: 'yes' } : {}) };
    this.ending = endingNumber(bar) ?? this.ending;
    return element('measure', attributes, [...leftBarline(bar), ...music, ...rightBarline(bar, this.ending)]);
  }

  /** A bar that this voice has not, as a rest of the same length. */
  restMeasure(index: number, quarters: Fraction): XmlElement {
    const rest = element('note', {}, [
      element('rest', { measure: 'yes' }),
      textElement('duration', this.ticks(quarters)),
      textElement('voice', 1),
    ]);
    return element('measure', { number: this.setting.labels[index] ?? '' }, [rest]);
  }
}
