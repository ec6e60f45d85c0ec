import { pitchOfMidi, type Key, type Meter } from '../../music/index.ts';
import { ticksPerQuarter, type Piece, type PieceBar } from '../form/piece.ts';
import { accidentalsOf } from './accidentals.ts';
import { leftBarline, rightBarline } from './barlines.ts';
import { beamsOf, type BeamWord } from './beams.ts';
import { directionElements } from './directions.ts';
import { noteElements, type BarMarks, type VoiceLook } from './note-element.ts';
import { voiceEvents, type VoiceEvent } from './voice-events.ts';
import { element, elementWith, type XmlElement } from './xml.ts';

const keyElement = (key: Key): XmlElement =>
  element('key', element('fifths', key.fifths), element('mode', key.mode ?? 'major'));

const timeElement = (meter: Meter): XmlElement =>
  element('time', element('beats', meter.beats.join('+')), element('beat-type', meter.beatUnit));

function tuningElement(midi: number, lineNumber: number): XmlElement {
  const { step, alter, octave } = pitchOfMidi(midi, -1);
  const alterElement = alter === 0 ? null : element('tuning-alter', alter);
  return elementWith(
    'staff-tuning',
    { line: lineNumber },
    element('tuning-step', step),
    alterElement,
    element('tuning-octave', octave),
  );
}

function staffDetails(piece: Piece): XmlElement {
  const lowestFirst = [...piece.tuning].reverse();
  return elementWith(
    'staff-details',
    { number: 2 },
    element('staff-lines', piece.tuning.length),
    lowestFirst.map((midi, index) => tuningElement(midi, index + 1)),
    piece.capoFret > 0 ? element('capo', piece.capoFret) : null,
  );
}

function firstAttributes(piece: Piece, bar: PieceBar): XmlElement {
  return element(
    'attributes',
    element('divisions', ticksPerQuarter),
    keyElement(bar.key),
    timeElement(bar.meter),
    element('staves', 2),
    elementWith('clef', { number: 1 }, element('sign', 'G'), element('line', 2), element('clef-octave-change', -1)),
    elementWith('clef', { number: 2 }, element('sign', 'TAB'), element('line', 5)),
    staffDetails(piece),
  );
}

function attributesElement(piece: Piece, bar: PieceBar): XmlElement | null {
  const before = piece.bars[bar.ordinal - 2];
  if (before === undefined) return firstAttributes(piece, bar);
  const newKey = before.key.fifths !== bar.key.fifths || before.key.mode !== bar.key.mode;
  const newMeter = JSON.stringify(before.meter) !== JSON.stringify(bar.meter);
  if (!newKey && !newMeter) return null;
  return element('attributes', newKey ? keyElement(bar.key) : null, newMeter ? timeElement(bar.meter) : null);
}

interface PrintedVoice {
  readonly events: readonly VoiceEvent[];
  readonly lineIndex: number;
  readonly stem: 'up' | 'down';
  readonly showsRests: boolean;
}

/** The lines that are printed in a bar: outer lines always, the others where they sound. */
function printedVoices(piece: Piece, bar: PieceBar): PrintedVoice[] {
  return piece.lines.flatMap((line, lineIndex) => {
    const events = voiceEvents(piece, line.letter, bar);
    const showsRests = line.role === 'melody' || line.role === 'bass';
    const sounds = events.some((event) => event.notes.length > 0);
    return sounds || line.role === 'melody' ? [{ events, lineIndex, stem: line.stems, showsRests }] : [];
  });
}

function marksOf(voices: readonly PrintedVoice[], bar: PieceBar): BarMarks {
  const beams = new Map<VoiceEvent, readonly BeamWord[]>();
  for (const { events } of voices) for (const [event, words] of beamsOf(events, bar.meter)) beams.set(event, words);
  return {
    beams,
    accidentals: accidentalsOf(
      voices.flatMap(({ events }) => events),
      bar.key,
    ),
  };
}

function lookOf(voice: PrintedVoice, staff: 1 | 2, lineCount: number): VoiceLook {
  return staff === 1
    ? { voice: voice.lineIndex + 1, staff, stem: voice.stem, showsRests: voice.showsRests }
    : { voice: lineCount + voice.lineIndex + 1, staff, stem: 'none', showsRests: false };
}

/** A double-stemmed unison has two heads in notation and one number in tablature. */
function withoutSharedHeads(voice: PrintedVoice, earlier: readonly PrintedVoice[]): PrintedVoice {
  const struck = new Set(
    earlier.flatMap(({ events }) =>
      events.flatMap(({ notes }) => notes.map((note) => `${note.onsetTicks}/${note.string}`)),
    ),
  );
  const events = voice.events.map((event) => {
    const notes = event.notes.filter((note) => !struck.has(`${note.onsetTicks}/${note.string}`));
    return notes.length === event.notes.length ? event : { ...event, notes, isTiedFromBefore: false, isTiedOn: false };
  });
  return { ...voice, events };
}

function staffElements(piece: Piece, bar: PieceBar, staff: 1 | 2): XmlElement[] {
  const all = printedVoices(piece, bar);
  const voices = staff === 1 ? all : all.map((voice, index) => withoutSharedHeads(voice, all.slice(0, index)));
  const marks = marksOf(voices, bar);
  const backup = element('backup', element('duration', bar.lengthTicks));
  return voices.flatMap((voice, index) => [
    ...(index > 0 || staff === 2 ? [backup] : []),
    ...noteElements(voice.events, lookOf(voice, staff, piece.lines.length), marks, piece),
  ]);
}

const kept = (item: XmlElement | null): readonly XmlElement[] => (item === null ? [] : [item]);

/** One `measure`: attributes, directions, then each line in a voice of its own, in notation and again in tablature. */
export function measureElement(piece: Piece, bar: PieceBar): XmlElement {
  const attributes = { number: bar.label, ...(bar.isPickup ? { implicit: 'yes' } : {}) };
  return elementWith(
    'measure',
    attributes,
    kept(leftBarline(piece, bar)),
    kept(attributesElement(piece, bar)),
    directionElements(piece, bar),
    staffElements(piece, bar, 1),
    staffElements(piece, bar, 2),
    kept(rightBarline(piece, bar)),
  );
}
