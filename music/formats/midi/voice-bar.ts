import { shiftOctaves, type Pitch } from '../../basis/pitch.ts';
import type { HitKind } from '../../score/score.ts';
import type { BarAccidentals } from '../musicxml-writer/accidentals.ts';
import { hitHeads } from '../musicxml-writer/hit-heads.ts';
import { textElement } from '../musicxml-writer/text-element.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import type { MidiBar } from './bar-map.ts';
import type { VoiceEvent, VoiceLine } from './part-voices.ts';
import { hitOfKey } from './percussion-key.ts';
import { piecesOf, type Piece } from './printed-values.ts';
import type { Pulse } from './pulses.ts';
import type { GridNote } from './quantise.ts';
import type { SungText } from './source-parts.ts';
import { spellPitch } from './spell-pitch.ts';

/** What the writer of a part's bars must know. */
export interface PartSetting {
  readonly partId: string;
  readonly isPercussion: boolean;
  /** How many octaves above its sound it is written. */
  readonly octavesAbove: number;
  /** Words to sing, by the moment in the file at which they stand. */
  readonly lyrics: ReadonlyMap<number, SungText>;
}

interface PrintedPiece extends Piece {
  readonly event: VoiceEvent | null;
  readonly isFirst: boolean;
  readonly isLast: boolean;
}

interface PlacedStretch {
  readonly startUnits: number;
  readonly endUnits: number;
  readonly event: VoiceEvent | null;
}

/** What a voice has in one bar, gaps included. */
function stretchesOf(events: readonly VoiceEvent[], bar: MidiBar): PlacedStretch[] {
  const end = bar.startUnits + bar.lengthUnits;
  const stretches: PlacedStretch[] = [];
  let at = bar.startUnits;
  for (const event of events) {
    const startUnits = Math.max(event.startUnits, bar.startUnits);
    const endUnits = Math.min(event.endUnits, end);
    if (startUnits > at) stretches.push({ startUnits: at, endUnits: startUnits, event: null });
    stretches.push({ startUnits, endUnits, event });
    at = endUnits;
  }
  if (at < end) stretches.push({ startUnits: at, endUnits: end, event: null });
  return stretches;
}

function printed(events: readonly VoiceEvent[], bar: MidiBar, pulses: readonly Pulse[]): PrintedPiece[] {
  const stretches = stretchesOf(events, bar);
  const edges = stretches.flatMap(({ startUnits, endUnits }) => [startUnits, endUnits]);
  return stretches.flatMap(({ event, ...stretch }) =>
    piecesOf({ ...stretch, isRest: event === null }, pulses, edges).map((piece) => ({
      ...piece,
      event,
      isFirst: piece.startUnits === event?.startUnits,
      isLast: piece.endUnits === event?.endUnits,
    })),
  );
}

/** Where tuplet brackets begin and end: with the pulse. */
function tupletEdge(piece: Piece, pulses: readonly Pulse[]): readonly ('start' | 'stop')[] {
  if (piece.tuplet === null) return [];
  const starts = pulses.some(({ startUnits }) => startUnits === piece.startUnits);
  const stops = pulses.some(({ startUnits, lengthUnits }) => startUnits + lengthUnits === piece.endUnits);
  return [...(starts ? (['start'] as const) : []), ...(stops ? (['stop'] as const) : [])];
}

function pitchElement({ step, alter, octave }: Pitch): XmlElement {
  const altered = alter === 0 ? [] : [textElement('alter', alter)];
  return element('pitch', {}, [textElement('step', step), ...altered, textElement('octave', octave)]);
}

/** The id of the instrument of a part that a hit is struck on. */
export const instrumentId = (partId: string, hit: HitKind): string => `${partId}-${hit}`;

function soundOf(note: GridNote, bar: MidiBar, setting: PartSetting): XmlElement {
  if (!setting.isPercussion) return pitchElement(shiftOctaves(spellPitch(note.midi, bar.key), setting.octavesAbove));
  const { step, octave } = hitHeads[hitOfKey(note.midi)];
  return element('unpitched', {}, [textElement('display-step', step), textElement('display-octave', octave)]);
}

const valueOf = ({ type, dots }: Piece): XmlElement[] =>
  type === null ? [] : [textElement('type', type), ...Array.from({ length: dots }, () => element('dot'))];

const modificationOf = ({ tuplet }: Piece): XmlElement[] =>
  tuplet === null
    ? []
    : [
        element('time-modification', {}, [
          textElement('actual-notes', tuplet.actual),
          textElement('normal-notes', tuplet.normal),
        ]),
      ];

const tiesOf = ({ isFirst, isLast, event }: PrintedPiece, name: 'tie' | 'tied'): XmlElement[] =>
  event === null
    ? []
    : [...(isFirst ? [] : [element(name, { type: 'stop' })]), ...(isLast ? [] : [element(name, { type: 'start' })])];

function notationsOf(piece: PrintedPiece, pulses: readonly Pulse[], isChordMember: boolean): XmlElement[] {
  const edges = isChordMember ? [] : tupletEdge(piece, pulses);
  const content = [...tiesOf(piece, 'tied'), ...edges.map((type) => element('tuplet', { type }))];
  return content.length === 0 ? [] : [element('notations', {}, content)];
}

function lyricOf(piece: PrintedPiece, setting: PartSetting): XmlElement[] {
  const first = piece.event?.notes[0];
  const sung = piece.isFirst && first !== undefined ? setting.lyrics.get(first.startTicks) : undefined;
  if (sung === undefined) return [];
  const { syllabic, text } = sung;
  return [element('lyric', { number: '1' }, [textElement('syllabic', syllabic), textElement('text', text)])];
}

interface BarSetting {
  readonly bar: MidiBar;
  readonly pulses: readonly Pulse[];
  readonly voice: number;
  readonly part: PartSetting;
  readonly accidentals: BarAccidentals;
}

function accidentalOf(
  note: GridNote,
  piece: PrintedPiece,
  { bar, part, accidentals }: Pick<BarSetting, 'bar' | 'part' | 'accidentals'>,
): XmlElement[] {
  const name = part.isPercussion ? null : accidentals.before(spellPitch(note.midi, bar.key), !piece.isFirst);
  return name === null ? [] : [textElement('accidental', name)];
}

/** **Source** MusicXML 4.0, note: the order of elements. */
function noteElement(
  note: GridNote,
  index: number,
  piece: PrintedPiece,
  { bar, pulses, voice, part, accidentals }: BarSetting,
): XmlElement {
  return element('note', {}, [
    ...(index > 0 ? [element('chord')] : []),
    soundOf(note, bar, part),
    textElement('duration', piece.endUnits - piece.startUnits),
    ...tiesOf(piece, 'tie'),
    ...(part.isPercussion ? [element('instrument', { id: instrumentId(part.partId, hitOfKey(note.midi)) })] : []),
    textElement('voice', voice),
    ...valueOf(piece),
    ...accidentalOf(note, piece, { bar, part, accidentals }),
    ...modificationOf(piece),
    ...(part.isPercussion ? [textElement('notehead', 'x')] : []),
    ...notationsOf(piece, pulses, index > 0),
    ...(index > 0 ? [] : lyricOf(piece, part)),
  ]);
}

function restElement(piece: PrintedPiece, { pulses, voice }: BarSetting): XmlElement {
  return element('note', {}, [
    element('rest'),
    textElement('duration', piece.endUnits - piece.startUnits),
    textElement('voice', voice),
    ...valueOf(piece),
    ...modificationOf(piece),
    ...notationsOf(piece, pulses, false),
  ]);
}

const barRest = (bar: MidiBar, voice: number): XmlElement =>
  element('note', {}, [
    element('rest', { measure: 'yes' }),
    textElement('duration', bar.lengthUnits),
    textElement('voice', voice),
  ]);

/** Which events of a voice sound in each bar, by the bar's index; those that reach over a bar line are in each of their bars. */
export function eventsByBar(line: VoiceLine, bars: readonly MidiBar[]): ReadonlyMap<number, readonly VoiceEvent[]> {
  const byBar = new Map<number, VoiceEvent[]>();
  let index = 0;
  const endOf = (at: number): number => (bars[at]?.startUnits ?? Infinity) + (bars[at]?.lengthUnits ?? 0);
  for (const event of line) {
    while (index < bars.length && endOf(index) <= event.startUnits) index += 1;
    for (let at = index; at < bars.length && (bars[at]?.startUnits ?? 0) < event.endUnits; at += 1) {
      const known = byBar.get(at);
      if (known === undefined) byBar.set(at, [event]);
      else known.push(event);
    }
  }
  return byBar;
}

/** The notes and rests of one voice in one bar as `<note>` elements; a first voice without notes rests, the others have nothing then. */
export function voiceInBar(events: readonly VoiceEvent[], setting: BarSetting): XmlElement[] {
  if (events.length === 0) return setting.voice === 1 ? [barRest(setting.bar, 1)] : [];
  return printed(events, setting.bar, setting.pulses).flatMap((piece) =>
    piece.event === null
      ? [restElement(piece, setting)]
      : piece.event.notes.map((note, index) => noteElement(note, index, piece, setting)),
  );
}
