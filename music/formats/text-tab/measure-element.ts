import { element, type XmlElement } from '../xml/tree.ts';
import type { PlacedTexts } from './annotations.ts';
import { harmonyElement } from './chord-symbols.ts';
import type { FretSign } from './fret-sign.ts';
import type { Moment } from './moments.ts';
import {
  headElements,
  notationsElement,
  soundElement,
  valueElements,
  type NoteContext,
  type PieceEdges,
} from './note-elements.ts';
import { printedValues, type PrintedValue } from './printed-values.ts';
import { textElement } from './text-element.ts';
import type { TabBar } from './tab-bar.ts';
import type { TimedBar, TimedEvent } from './timed-bar.ts';
import { tripletWindows, type TripletWindow } from './triplet-windows.ts';

/** What one bar is written with. */
export interface MeasureSetting {
  readonly bar: TimedBar;
  readonly number: number;
  /** Attributes and whatever else stands before its notes. */
  readonly opening: readonly XmlElement[];
  readonly isLast: boolean;
  readonly context: NoteContext;
}

interface Piece {
  readonly value: PrintedValue;
  readonly tuplet: readonly XmlElement[];
}

const tupletSign = (type: 'start' | 'stop'): XmlElement => element('tuplet', { type });

function tupletSigns({ onset, length }: PrintedValue, window: TripletWindow | undefined): XmlElement[] {
  if (window === undefined) return [];
  return [
    ...(onset === window.from ? [tupletSign('start')] : []),
    ...(onset + length === window.to ? [tupletSign('stop')] : []),
  ];
}

/** The printed values of an event, cut where triplets begin and end. */
function piecesOf({ onset, length }: TimedEvent, { meter }: TimedBar, windows: readonly TripletWindow[]): Piece[] {
  const end = onset + length;
  const cuts = [...new Set([onset, end, ...windows.flatMap(({ from, to }) => [from, to])])]
    .filter((cut) => cut >= onset && cut <= end)
    .sort((a, b) => a - b);
  return cuts.slice(0, -1).flatMap((from, index) => {
    const window = windows.find((candidate) => candidate.from <= from && from < candidate.to);
    const values = printedValues(from, (cuts[index + 1] ?? end) - from, meter, window !== undefined);
    return values.map((value) => ({ value, tuplet: tupletSigns(value, window) }));
  });
}

function restElement({ value, tuplet }: Piece, isBarRest: boolean): XmlElement {
  return element('note', {}, [
    element('rest', isBarRest ? { measure: 'yes' } : {}),
    textElement('duration', value.length),
    textElement('voice', 1),
    ...(isBarRest ? [] : valueElements(value)),
    ...(tuplet.length === 0 ? [] : [element('notations', {}, tuplet)]),
  ]);
}

const lyricElement = (texts: readonly string[]): XmlElement =>
  element('lyric', { number: '1' }, [textElement('syllabic', 'single'), textElement('text', texts.join(' '))]);

/** Writes the notes of one bar. */
class MeasureWriter {
  private readonly setting: MeasureSetting;
  private readonly windows: readonly TripletWindow[];
  readonly elements: XmlElement[] = [];

  constructor(setting: MeasureSetting) {
    this.setting = setting;
    const edges = setting.bar.events.flatMap(({ onset, length }) => [onset, onset + length]);
    this.windows = tripletWindows(edges, setting.bar.length);
  }

  write(): XmlElement[] {
    const { bar } = this.setting;
    const isSilent = bar.events.every(({ moment }) => moment === null);
    if (isSilent) {
      this.addTexts(null);
      const value = { onset: 0, length: bar.length, type: null, dots: 0, isTriplet: false };
      return [...this.elements, restElement({ value, tuplet: [] }, true)];
    }
    this.addTexts(null);
    for (const event of bar.events) this.addEvent(event);
    return this.elements;
  }

  private addTexts(moment: Moment | null): void {
    const { marks } = this.setting.bar;
    for (const text of textsAt(marks.chords, moment)) this.elements.push(harmonyElement(text));
    for (const text of textsAt(marks.wordsAbove, moment)) this.elements.push(wordsElement(text, 'above'));
    for (const text of textsAt(marks.wordsBelow, moment)) this.elements.push(wordsElement(text, 'below'));
  }

  private addEvent(event: TimedEvent): void {
    const { moment } = event;
    const pieces = piecesOf(event, this.setting.bar, this.windows);
    if (moment !== null && !event.isContinued) this.addTexts(moment);
    pieces.forEach((piece, index) => {
      const isStill = moment === null || (isDead(moment) && (index > 0 || event.isContinued));
      if (isStill) this.elements.push(restElement(piece, false));
      else this.addChord(event, moment, piece, { index, count: pieces.length });
    });
  }

  private addChord(event: TimedEvent, moment: Moment, piece: Piece, place: { index: number; count: number }): void {
    const isDeadMoment = isDead(moment);
    const isLast = place.index === place.count - 1 && !event.goesOn;
    const isFirst = place.index === 0 && !event.isContinued;
    const edges: PieceEdges = {
      isFirst,
      isLast: isLast || isDeadMoment,
      isTiedFromBefore: !isFirst,
      isTiedOn: !isLast && !isDeadMoment,
    };
    moment.frets.forEach((fret, index) => {
      this.elements.push(this.noteElement(fret, moment, piece, edges, index));
    });
  }

  private noteElement(fret: FretSign, moment: Moment, piece: Piece, edges: PieceEdges, index: number): XmlElement {
    const { marks } = this.setting.bar;
    const { value } = piece;
    const isPalmMuted = marks.palmMuted.has(moment);
    const spans = { isPalmMuted, letsRing: marks.lettingRing.has(moment) };
    const lyrics = index === 0 && edges.isFirst ? (marks.lyrics.get(moment) ?? []) : [];
    const ties = [
      ...(edges.isTiedFromBefore ? [element('tie', { type: 'stop' })] : []),
      ...(edges.isTiedOn ? [element('tie', { type: 'start' })] : []),
    ];
    return element('note', {}, [
      ...(index > 0 ? [element('chord')] : []),
      soundElement(fret, this.setting.context),
      textElement('duration', value.length),
      ...ties,
      textElement('voice', 1),
      ...valueElements(value),
      ...headElements(fret),
      notationsElement(fret, edges, spans, index === 0 ? piece.tuplet : []),
      ...(lyrics.length === 0 ? [] : [lyricElement(lyrics)]),
      ...(isPalmMuted ? [element('play', {}, [textElement('mute', 'palm')])] : []),
    ]);
  }
}

const isDead = ({ frets }: Moment): boolean => frets.every(({ fret }) => fret === null);

const textsAt = (texts: PlacedTexts, moment: Moment | null): readonly string[] => texts.get(moment) ?? [];

/** Words above or below the staff. */
export const wordsElement = (text: string, placement: 'above' | 'below'): XmlElement =>
  element('direction', { placement }, [element('direction-type', {}, [textElement('words', text)])]);

const rehearsalElement = (text: string): XmlElement =>
  element('direction', { placement: 'above' }, [element('direction-type', {}, [textElement('rehearsal', text)])]);

function endingElement(tab: TabBar, edge: 'start' | 'stop'): XmlElement[] {
  const { ending } = tab;
  if (ending === null || !(edge === 'start' ? ending.isFirst : ending.isLast)) return [];
  const type = edge === 'stop' && ending.isOpen ? 'discontinue' : edge;
  return [element('ending', { number: ending.passes.join(','), type }, edge === 'start' ? [ending.text] : [])];
}

function leftBarline(tab: TabBar): XmlElement[] {
  const content = [
    ...(tab.startsRepeat ? [textElement('bar-style', 'heavy-light')] : []),
    ...endingElement(tab, 'start'),
    ...(tab.startsRepeat ? [element('repeat', { direction: 'forward' })] : []),
  ];
  return content.length === 0 ? [] : [element('barline', { location: 'left' }, content)];
}

function rightBarline({ tab }: TimedBar, isLast: boolean): XmlElement[] {
  const isDrawn = tab.endsRepeat || isLast || tab.endsDouble;
  const ending = endingElement(tab, 'stop');
  if (!isDrawn && ending.length === 0) return [];
  const style = isDrawn ? [textElement('bar-style', tab.endsRepeat || isLast ? 'light-heavy' : 'light-light')] : [];
  const times: Record<string, string> = tab.repeatTimes === 2 ? {} : { times: String(tab.repeatTimes) };
  const repeat = tab.endsRepeat ? [element('repeat', { direction: 'backward', ...times })] : [];
  return [element('barline', { location: 'right' }, [...style, ...ending, ...repeat])];
}

/** One bar as a `<measure>`. */
export function measureElement(setting: MeasureSetting): XmlElement {
  const { bar, number, opening, isLast } = setting;
  const attributes: Record<string, string> = { number: String(number) };
  if (bar.isPickup) attributes['implicit'] = 'yes';
  return element('measure', attributes, [
    ...leftBarline(bar.tab),
    ...opening,
    ...bar.marks.sections.map(rehearsalElement),
    ...new MeasureWriter(setting).write(),
    ...rightBarline(bar, isLast),
  ]);
}
