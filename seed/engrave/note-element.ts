import { pitchOfMidi, type Pitch } from '../../music/index.ts';
import type { Piece, PieceNote } from '../form/piece.ts';
import { headKey, type HeadKey } from './accidentals.ts';
import type { BeamWord } from './beams.ts';
import type { VoiceEvent } from './voice-events.ts';
import { element, elementWith, type XmlElement } from './xml.ts';

/** Where and how a voice is printed. */
export interface VoiceLook {
  readonly voice: number;
  readonly staff: 1 | 2;
  readonly stem: 'up' | 'down' | 'none';
  readonly showsRests: boolean;
}

/** What is known about a whole bar of a staff before its notes are written. */
export interface BarMarks {
  readonly accidentals: ReadonlyMap<HeadKey, string>;
  readonly beams: ReadonlyMap<VoiceEvent, readonly BeamWord[]>;
}

function pitchElement(pitch: Pitch): XmlElement {
  const alter = pitch.alter === 0 ? null : element('alter', pitch.alter);
  return element('pitch', element('step', pitch.step), alter, element('octave', pitch.octave));
}

/** The pitch that places a head: a tap is printed at its open string. */
function placingPitch(note: PieceNote, piece: Piece): Pitch {
  if (note.sound.kind === 'pitched') return note.sound.pitch;
  return pitchOfMidi(piece.tuning[note.string - 1] ?? 0, 0);
}

function tripletEdge(event: VoiceEvent, events: readonly VoiceEvent[]): 'start' | 'stop' | null {
  if (!event.isTriplet) return null;
  const beatTicks = 24;
  const beat = Math.floor(event.onsetTicks / beatTicks);
  const group = events.filter((other) => other.isTriplet && Math.floor(other.onsetTicks / beatTicks) === beat);
  if (group[0] === event) return 'start';
  return group.at(-1) === event ? 'stop' : null;
}

function notationsElement(event: VoiceEvent, note: PieceNote, edge: 'start' | 'stop' | null): XmlElement {
  const isOneHead = !event.isTiedOn && !event.isTiedFromBefore;
  return element(
    'notations',
    event.isTiedFromBefore ? elementWith('tied', { type: 'stop' }) : null,
    event.isTiedOn ? elementWith('tied', { type: 'start' }) : null,
    note.ringsOn && isOneHead ? elementWith('tied', { type: 'let-ring' }) : null,
    edge === null ? null : elementWith('tuplet', { type: edge, number: 1 }),
    element('technical', element('string', note.string), element('fret', note.fret)),
  );
}

function lengthElements(event: VoiceEvent): XmlElement[] {
  return [element('type', event.type), ...Array.from({ length: event.dots }, () => element('dot'))];
}

const tripletElement = (event: VoiceEvent): XmlElement | null =>
  event.isTriplet ? element('time-modification', element('actual-notes', 3), element('normal-notes', 2)) : null;

function noteElement(
  event: VoiceEvent,
  note: PieceNote,
  isChordTone: boolean,
  look: VoiceLook,
  marks: BarMarks,
  events: readonly VoiceEvent[],
  piece: Piece,
): XmlElement {
  const accidental = look.staff === 1 ? marks.accidentals.get(headKey(event, note)) : undefined;
  const beams = look.stem === 'none' || isChordTone ? [] : (marks.beams.get(event) ?? []);
  return element(
    'note',
    isChordTone ? element('chord') : null,
    pitchElement(placingPitch(note, piece)),
    element('duration', event.lengthTicks),
    event.isTiedFromBefore ? elementWith('tie', { type: 'stop' }) : null,
    event.isTiedOn ? elementWith('tie', { type: 'start' }) : null,
    element('voice', look.voice),
    lengthElements(event),
    accidental === undefined ? null : element('accidental', accidental),
    tripletElement(event),
    element('stem', look.stem),
    note.sound.kind === 'tap' ? element('notehead', 'x') : null,
    element('staff', look.staff),
    beams.map((word, index) => elementWith('beam', { number: index + 1 }, word)),
    notationsElement(event, note, isChordTone ? null : tripletEdge(event, events)),
  );
}

/** Rests that are seen stand above the staff or below it, clear of the other voices. */
function restPlace(look: VoiceLook): XmlElement[] {
  if (!look.showsRests) return [];
  const [step, octave] = look.stem === 'up' ? ['A', 4] : ['D', 3];
  return [element('display-step', step), element('display-octave', octave)];
}

function restElement(event: VoiceEvent, look: VoiceLook, edge: 'start' | 'stop' | null): XmlElement {
  return elementWith(
    'note',
    look.showsRests ? {} : { 'print-object': 'no' },
    event.isBarRest ? elementWith('rest', { measure: 'yes' }) : element('rest', restPlace(look)),
    element('duration', event.lengthTicks),
    element('voice', look.voice),
    event.isBarRest ? null : lengthElements(event),
    tripletElement(event),
    element('staff', look.staff),
    edge === null ? null : element('notations', elementWith('tuplet', { type: edge, number: 1 })),
  );
}

/** The `note` elements of one voice in one bar. */
export function noteElements(
  events: readonly VoiceEvent[],
  look: VoiceLook,
  marks: BarMarks,
  piece: Piece,
): XmlElement[] {
  return events.flatMap((event) => {
    if (event.notes.length === 0) return [restElement(event, look, tripletEdge(event, events))];
    return event.notes.map((note, index) => noteElement(event, note, index > 0, look, marks, events, piece));
  });
}
