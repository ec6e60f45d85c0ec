import { saysGuitar } from '../../score/arrangement.ts';
import type { Key } from '../../score/score.ts';
import { BarAccidentals } from '../musicxml-writer/accidentals.ts';
import { hitHeads, hitKinds } from '../musicxml-writer/hit-heads.ts';
import { textElement } from '../musicxml-writer/text-element.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import { unitsPerQuarter, type MidiBar } from './bar-map.ts';
import { voicesOf } from './part-voices.ts';
import { hitOfKey } from './percussion-key.ts';
import { pulsesOf } from './pulses.ts';
import type { GridNote } from './quantise.ts';
import type { SourcePart } from './source-parts.ts';
import { eventsByBar, instrumentId, voiceInBar, type PartSetting } from './voice-bar.ts';

/** Guitars of the sound set, programs from 0. **Source** General MIDI Level 1 sound set, 25 to 32 counted from 1. */
const isGuitarProgram = (program: number | null): boolean => program !== null && program >= 24 && program <= 31;

/** A part as its entry in the part list and as its `<part>`. */
export interface WrittenPart {
  readonly entry: XmlElement;
  readonly part: XmlElement;
  readonly merged: number;
}

function midiInstrument(id: string, { program, isPercussion }: SourcePart): XmlElement[] {
  if (isPercussion || program === null) return [];
  return [
    element('score-instrument', { id: `${id}-I1` }, [
      textElement('instrument-name', isGuitarProgram(program) ? 'Guitar' : `General MIDI ${program + 1}`),
    ]),
    element('midi-instrument', { id: `${id}-I1` }, [textElement('midi-program', program + 1)]),
  ];
}

function hitInstruments(id: string, notes: readonly GridNote[]): XmlElement[] {
  const struck = new Set(notes.map(({ midi }) => hitOfKey(midi)));
  return hitKinds
    .filter((kind) => struck.has(kind))
    .map((kind) =>
      element('score-instrument', { id: instrumentId(id, kind) }, [
        textElement('instrument-name', hitHeads[kind].name),
      ]),
    );
}

const entryOf = (id: string, source: SourcePart, notes: readonly GridNote[]): XmlElement =>
  element('score-part', { id }, [
    textElement('part-name', source.name),
    ...(source.isPercussion ? hitInstruments(id, notes) : midiInstrument(id, source)),
  ]);

/** Below this mean pitch a part stands in the bass clef. **Units** MIDI note numbers; 60 is middle C. */
const bassBelowMidi = 58;

/** A guitar is written under a treble clef with an 8 below, so that it stands where it sounds. */
function clefOf({ program, name, isPercussion, notes }: SourcePart): XmlElement {
  if (isPercussion) return element('clef', {}, [textElement('sign', 'percussion')]);
  const isGuitar = isGuitarProgram(program) || saysGuitar(name);
  const mean = notes.reduce((sum, { midi }) => sum + midi, 0) / Math.max(1, notes.length);
  const isLow = mean < bassBelowMidi && !isGuitar;
  return element('clef', {}, [
    textElement('sign', isLow ? 'F' : 'G'),
    textElement('line', isLow ? 4 : 2),
    ...(isGuitar ? [textElement('clef-octave-change', -1)] : []),
  ]);
}

const keyElement = ({ fifths, mode }: Key): XmlElement =>
  element('key', {}, [textElement('fifths', fifths), ...(mode === null ? [] : [textElement('mode', mode)])]);

const isSame = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** How many octaves above its sound a part is written: one where it has notes below the lowest that can be named, as keys that switch sounds are. **Source** MusicXML 4.0, octave: 0 to 9. */
const octavesAbove = ({ notes }: SourcePart): number => (notes.some(({ midi }) => midi < 12) ? 1 : 0);

const transposeElement = (octaves: number): XmlElement =>
  element('transpose', {}, [
    textElement('diatonic', 0),
    textElement('chromatic', 0),
    ...(octaves === 0 ? [] : [textElement('octave-change', -octaves)]),
  ]);

/** **Source** MusicXML 4.0, attributes: the order of elements. */
function attributesOf(bar: MidiBar, before: MidiBar | undefined, source: SourcePart): XmlElement[] {
  const isFirst = before === undefined;
  const key = source.isPercussion ? { fifths: 0, mode: null } : bar.key;
  const content = [
    ...(isFirst ? [textElement('divisions', unitsPerQuarter)] : []),
    ...(isFirst || (!source.isPercussion && !isSame(bar.key, before.key)) ? [keyElement(key)] : []),
    ...(isSame(bar.meter, before?.meter)
      ? []
      : [
          element('time', {}, [
            textElement('beats', bar.meter.beats.join('+')),
            textElement('beat-type', bar.meter.beatUnit),
          ]),
        ]),
    ...(isFirst ? [clefOf(source)] : []),
    ...(isFirst && source.isPercussion ? [element('staff-details', {}, [textElement('staff-lines', 1)])] : []),
    ...(isFirst && !source.isPercussion ? [transposeElement(octavesAbove(source))] : []),
  ];
  return content.length === 0 ? [] : [element('attributes', {}, content)];
}

const backup = (units: number): XmlElement => element('backup', {}, [textElement('duration', units)]);

/** A part of a MIDI file, its notes on the grid, as MusicXML. `directions` are given to one part of the score. */
export function writePart(
  index: number,
  source: SourcePart,
  notes: readonly GridNote[],
  bars: readonly MidiBar[],
  directions: ReadonlyMap<number, readonly XmlElement[]>,
): WrittenPart {
  const id = `P${index + 1}`;
  const { isPercussion, lyrics } = source;
  const setting: PartSetting = { partId: id, isPercussion, octavesAbove: octavesAbove(source), lyrics };
  const { lines, merged } = voicesOf(notes);
  const voices = (lines.length === 0 ? [[]] : lines).map((line) => eventsByBar(line, bars));
  const measures = bars.map((bar, at) => {
    const pulses = pulsesOf(bar);
    const accidentals = new BarAccidentals(bar.key.fifths);
    const written = voices
      .map((voice, place) =>
        voiceInBar(voice.get(at) ?? [], { bar, pulses, voice: place + 1, part: setting, accidentals }),
      )
      .filter((elements) => elements.length > 0);
    const music = written.flatMap((elements, place) =>
      place === 0 ? elements : [backup(bar.lengthUnits), ...elements],
    );
    const attributes = { number: bar.label, ...(bar.isPickup ? { implicit: 'yes' } : {}) };
    return element('measure', attributes, [
      ...attributesOf(bar, bars[at - 1], source),
      ...(directions.get(at) ?? []),
      ...music,
    ]);
  });
  return { entry: entryOf(id, source, notes), part: element('part', { id }, measures), merged };
}
