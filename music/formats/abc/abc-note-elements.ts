import type { Pitch } from '../../basis/pitch.ts';
import type { BarAccidentals } from '../musicxml-writer/accidentals.ts';
import { beamElements } from '../musicxml-writer/beam-elements.ts';
import { beamsWithin, type Beams } from '../musicxml-writer/beaming.ts';
import { textElement } from '../musicxml-writer/text-element.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import type { AbcEvent, AbcNote, AbcSyllable } from './abc-events.ts';
import { marksOf, type MarkOf } from './abc-marks.ts';
import type { PrintedValue } from './abc-values.ts';

/** One printed piece of an event. */
export interface EventPiece {
  readonly event: AbcEvent;
  readonly value: PrintedValue;
  readonly ticks: number;
  readonly isFirst: boolean;
  readonly isLast: boolean;
  readonly beams: Beams;
}

/** What a note must know of its surroundings. */
export interface NoteSetting {
  readonly voice: number;
  readonly isPercussion: boolean;
  readonly accidentals: BarAccidentals;
  /** The number that a slur has while it is open; null where it never ends. */
  readonly slurNumber: (slur: number) => number | null;
}

function pitchElement({ step, alter, octave }: Pitch, isPercussion: boolean): XmlElement {
  if (isPercussion)
    return element('unpitched', {}, [textElement('display-step', step), textElement('display-octave', octave)]);
  const altered = alter === 0 ? [] : [textElement('alter', alter)];
  return element('pitch', {}, [textElement('step', step), ...altered, textElement('octave', octave)]);
}

const group = (name: string, children: readonly XmlElement[]): XmlElement[] =>
  children.length === 0 ? [] : [element(name, {}, children)];

function tiesOf(note: AbcNote, { isFirst, isLast }: EventPiece, name: 'tie' | 'tied'): XmlElement[] {
  const stops = isFirst ? note.isTiedFromBefore : true;
  const starts = isLast ? note.isTiedOn : true;
  return [...(stops ? [element(name, { type: 'stop' })] : []), ...(starts ? [element(name, { type: 'start' })] : [])];
}

function slursOf({ event, isFirst, isLast }: EventPiece, { slurNumber }: NoteSetting): XmlElement[] {
  const slur = (id: number, type: 'start' | 'stop'): XmlElement[] => {
    const number = slurNumber(id);
    return number === null ? [] : [element('slur', { type, number: String(number) })];
  };
  return [
    ...(isLast ? event.slurStops.flatMap((id) => slur(id, 'stop')) : []),
    ...(isFirst ? event.slurStarts.flatMap((id) => slur(id, 'start')) : []),
  ];
}

function tupletsOf({ event, isFirst, isLast }: EventPiece): XmlElement[] {
  const edge = event.tupletEdge;
  if (edge === 'start' && isFirst) return [element('tuplet', { type: 'start' })];
  return edge === 'stop' && isLast ? [element('tuplet', { type: 'stop' })] : [];
}

/** **Source** MusicXML 4.0, notations. */
function notationsOf(
  note: AbcNote | null,
  index: number,
  piece: EventPiece,
  setting: NoteSetting,
  marks: MarkOf,
): XmlElement[] {
  const isHead = index === 0;
  const hasMarks = isHead && piece.isFirst;
  return group('notations', [
    ...(note === null ? [] : tiesOf(note, piece, 'tied')),
    ...(isHead ? slursOf(piece, setting) : []),
    ...(isHead ? tupletsOf(piece) : []),
    ...(hasMarks ? group('ornaments', marks.ornaments) : []),
    ...group('technical', [
      ...(hasMarks ? marks.technical : []),
      ...(piece.isFirst ? (note?.fingers ?? []).map((finger) => textElement('fingering', finger)) : []),
    ]),
    ...(hasMarks ? group('articulations', marks.articulations) : []),
    ...(hasMarks ? marks.others : []),
  ]);
}

const valueElements = ({ value }: EventPiece): XmlElement[] =>
  value.type === null
    ? []
    : [textElement('type', value.type), ...Array.from({ length: value.dots }, () => element('dot'))];

function modification({ event }: EventPiece): XmlElement[] {
  if (event.tuplet === null) return [];
  const { actual, normal } = event.tuplet;
  return [element('time-modification', {}, [textElement('actual-notes', actual), textElement('normal-notes', normal)])];
}

const lyricElement = ({ verse, text, syllabic, isExtended }: AbcSyllable): XmlElement =>
  element('lyric', { number: String(verse) }, [
    textElement('syllabic', syllabic),
    textElement('text', text),
    ...(isExtended ? [element('extend')] : []),
  ]);

function accidentalOf(pitch: Pitch, isTied: boolean, { accidentals, isPercussion }: NoteSetting): XmlElement[] {
  const name = isPercussion ? null : accidentals.before(pitch, isTied);
  return name === null ? [] : [textElement('accidental', name)];
}

function headElement(note: AbcNote, index: number, piece: EventPiece, setting: NoteSetting, marks: MarkOf): XmlElement {
  const isTied = note.isTiedFromBefore || !piece.isFirst;
  return element('note', {}, [
    ...(index > 0 ? [element('chord')] : []),
    pitchElement(note.pitch, setting.isPercussion),
    textElement('duration', piece.ticks),
    ...tiesOf(note, piece, 'tie'),
    textElement('voice', setting.voice),
    ...valueElements(piece),
    ...accidentalOf(note.pitch, isTied, setting),
    ...modification(piece),
    ...(index === 0 ? beamElements(piece.beams) : []),
    ...notationsOf(note, index, piece, setting, marks),
    ...(index === 0 && piece.isFirst ? piece.event.syllables.map(lyricElement) : []),
  ]);
}

function restElement(piece: EventPiece, setting: NoteSetting, marks: MarkOf): XmlElement {
  const { event } = piece;
  return element('note', event.isVisible ? {} : { 'print-object': 'no' }, [
    element('rest', event.isWholeBar ? { measure: 'yes' } : {}),
    textElement('duration', piece.ticks),
    textElement('voice', setting.voice),
    ...(event.isWholeBar ? [] : valueElements(piece)),
    ...modification(piece),
    ...notationsOf(null, 0, piece, setting, marks),
  ]);
}

function graceElements({ graces, hasGraceSlash }: AbcEvent, setting: NoteSetting): XmlElement[] {
  const firsts = graces.filter(({ isChordMember }) => !isChordMember);
  const run = firsts.map(() => ({ value: { type: '16th' } }) as const);
  let place = -1;
  return graces.map(({ pitch, isChordMember }) => {
    if (!isChordMember) place += 1;
    const beams = firsts.length > 1 && !isChordMember ? beamsWithin(run, place) : [];
    return element('note', {}, [
      element('grace', hasGraceSlash ? { slash: 'yes' } : {}),
      ...(isChordMember ? [element('chord')] : []),
      pitchElement(pitch, setting.isPercussion),
      textElement('voice', setting.voice),
      textElement('type', firsts.length > 1 ? '16th' : 'eighth'),
      ...accidentalOf(pitch, false, setting),
      ...beamElements(beams),
    ]);
  });
}

/** An event's pieces as `<note>` elements, its grace notes before them. **Source** MusicXML 4.0, note: the order of elements. */
export function eventElements(pieces: readonly EventPiece[], setting: NoteSetting): XmlElement[] {
  const [first] = pieces;
  if (first === undefined) return [];
  const marks = marksOf(first.event.decorations);
  const notes = pieces.flatMap((piece) =>
    piece.event.notes.length === 0
      ? [restElement(piece, setting, marks)]
      : piece.event.notes.map((note, index) => headElement(note, index, piece, setting, marks)),
  );
  return [...graceElements(first.event, setting), ...notes];
}
