import type { WrittenEvent, WrittenHead } from '../../score/written.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import type { BarAccidentals } from './accidentals.ts';
import type { Beams } from './beaming.ts';
import { hitHeads } from './hit-heads.ts';

/** What the writer of an event must know of its surroundings. */
export interface EventContext {
  readonly partId: string;
  readonly accidentals: BarAccidentals;
  readonly beams: Beams;
  readonly idOf: (head: WrittenHead) => string;
}

/** An element that holds only text. */
export const textElement = (name: string, text: string | number): XmlElement => element(name, {}, [String(text)]);

function soundElement({ sound }: WrittenHead): XmlElement {
  if (sound.kind === 'hit') {
    const { step, octave } = hitHeads[sound.hit];
    return element('unpitched', {}, [textElement('display-step', step), textElement('display-octave', octave)]);
  }
  const { step, alter, octave } = sound.pitch;
  const altered = alter === 0 ? [] : [textElement('alter', alter)];
  return element('pitch', {}, [textElement('step', step), ...altered, textElement('octave', octave)]);
}

function valueElements({ value, isBarRest }: WrittenEvent): XmlElement[] {
  if (isBarRest) return [];
  return [textElement('type', value.type), ...Array.from({ length: value.dots }, () => element('dot'))];
}

function timeModification({ value, isBarRest }: WrittenEvent): XmlElement[] {
  if (value.tuplet === null || isBarRest) return [];
  const { actual, normal } = value.tuplet;
  return [element('time-modification', {}, [textElement('actual-notes', actual), textElement('normal-notes', normal)])];
}

const ties = (head: WrittenHead, name: 'tie' | 'tied'): XmlElement[] => [
  ...(head.isTiedFromBefore ? [element(name, { type: 'stop' })] : []),
  ...(head.isTiedOn ? [element(name, { type: 'start' })] : []),
];

function notations(event: WrittenEvent, head: WrittenHead | null, isFirst: boolean): XmlElement[] {
  const tied = head === null ? [] : ties(head, 'tied');
  const tuplet =
    event.tupletEdge === null || !isFirst ? [] : [element('tuplet', { type: event.tupletEdge, bracket: 'yes' })];
  return tied.length + tuplet.length === 0 ? [] : [element('notations', {}, [...tied, ...tuplet])];
}

function accidentalOf(head: WrittenHead, accidentals: BarAccidentals): XmlElement[] {
  if (head.sound.kind !== 'pitched') return [];
  const name = accidentals.before(head.sound.pitch, head.isTiedFromBefore);
  return name === null ? [] : [textElement('accidental', name)];
}

const beamElements = (beams: Beams): XmlElement[] =>
  beams.map((beam, index) => element('beam', { number: String(index + 1) }, [beam]));

function headElement(event: WrittenEvent, head: WrittenHead, index: number, context: EventContext): XmlElement {
  const isHit = head.sound.kind === 'hit';
  return element('note', { id: context.idOf(head) }, [
    ...(index > 0 ? [element('chord')] : []),
    soundElement(head),
    textElement('duration', event.lengthTicks),
    ...ties(head, 'tie'),
    ...(head.sound.kind === 'hit' ? [element('instrument', { id: `${context.partId}-${head.sound.hit}` })] : []),
    textElement('voice', 1),
    ...valueElements(event),
    ...accidentalOf(head, context.accidentals),
    ...timeModification(event),
    ...(isHit ? [textElement('stem', 'up'), textElement('notehead', 'x')] : []),
    ...(index > 0 ? [] : beamElements(context.beams)),
    ...notations(event, head, index === 0),
  ]);
}

function restElement(event: WrittenEvent): XmlElement {
  return element('note', {}, [
    element('rest', event.isBarRest ? { measure: 'yes' } : {}),
    textElement('duration', event.lengthTicks),
    textElement('voice', 1),
    ...valueElements(event),
    ...timeModification(event),
    ...notations(event, null, true),
  ]);
}

/** An event as `<note>` elements, a chord's heads one after the other. **Source** MusicXML 4.0, note: the order of elements. */
export const eventElements = (event: WrittenEvent, context: EventContext): XmlElement[] =>
  event.heads.length === 0
    ? [restElement(event)]
    : event.heads.map((head, index) => headElement(event, head, index, context));
