import { pitchOfMidi } from '../../basis/pitch.ts';
import { saysGuitar } from '../../score/arrangement.ts';
import type { Key, Meter } from '../../score/score.ts';
import type { StringSetup, Transposition, WrittenClef, WrittenScore, WrittenStaff } from '../../score/written.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import { textElement } from './text-element.ts';
import { writtenKey } from './transposed.ts';

type Attributes = Readonly<Record<string, string>>;

function clefElement(clef: WrittenClef, attributes: Attributes): XmlElement {
  if (clef.sign === 'percussion') return element('clef', attributes, [textElement('sign', 'percussion')]);
  const octave = clef.octave === 0 ? [] : [textElement('clef-octave-change', clef.octave)];
  return element('clef', attributes, [textElement('sign', clef.sign), textElement('line', clef.staffLine), ...octave]);
}

const keyElement = ({ fifths, mode }: Key): XmlElement =>
  element('key', {}, [textElement('fifths', fifths), ...(mode === null ? [] : [textElement('mode', mode)])]);

const timeElement = ({ beats, beatUnit }: Meter): XmlElement =>
  element('time', {}, [textElement('beats', beats.join('+')), textElement('beat-type', beatUnit)]);

const isSame = (a: Key | Meter, b: Key | Meter | undefined): boolean =>
  b !== undefined && JSON.stringify(a) === JSON.stringify(b);

/** A string of a tablature; lines count from the lowest. **Source** MusicXML 4.0, staff-tuning. */
function tuningElement(midi: number, line: number): XmlElement {
  const { step, alter, octave } = pitchOfMidi(midi, 0);
  return element('staff-tuning', { line: String(line) }, [
    textElement('tuning-step', step),
    ...(alter === 0 ? [] : [textElement('tuning-alter', alter)]),
    textElement('tuning-octave', octave),
  ]);
}

/** The strings of the tablature staff; a capo that is taken off is said to be at no fret. */
function stringDetails({ tuning, capoFret }: StringSetup, isChange: boolean): XmlElement {
  return element('staff-details', { number: '2' }, [
    textElement('staff-lines', tuning.length),
    ...tuning.toReversed().map((midi, index) => tuningElement(midi, index + 1)),
    ...(capoFret === 0 && !isChange ? [] : [textElement('capo', capoFret)]),
  ]);
}

/** The strings as a change within a bar sets them up. */
export const changedStrings = (setup: StringSetup): XmlElement =>
  element('attributes', {}, [stringDetails(setup, true)]);

/** What a bar says of the strings at its start. */
function stringsAt({ tablature }: WrittenStaff, index: number): XmlElement[] {
  if (tablature === null) return [];
  const changed = tablature.changes?.find(({ barIndex, onsetTicks }) => barIndex === index && onsetTicks === 0);
  if (changed !== undefined) return [stringDetails(changed, index > 0)];
  return index === 0 ? [stringDetails(tablature, false)] : [];
}

function transposeElement({ chromatic, diatonic, octaves }: Transposition): XmlElement {
  return element('transpose', {}, [
    textElement('diatonic', 0 - diatonic),
    textElement('chromatic', 0 - chromatic),
    ...(octaves === 0 ? [] : [textElement('octave-change', 0 - octaves)]),
  ]);
}

const asItSounds: Transposition = { chromatic: 0, diatonic: 0, octaves: 0 };

/** What moves a staff: its transposition; that it is none is said where a reader would expect an octave, as for guitars. */
function transposeElements({ transposition, clef, name, tablature }: WrittenStaff): XmlElement[] {
  if (transposition !== null) return [transposeElement(transposition)];
  const isDoubtful = clef.sign !== 'percussion' && clef.octave === 0 && (saysGuitar(name) || tablature !== null);
  return isDoubtful ? [transposeElement(asItSounds)] : [];
}

function clefElements(staff: WrittenStaff, index: number): XmlElement[] {
  const clef = index === 0 ? staff.clef : staff.clefChanges.find(({ barIndex }) => barIndex === index)?.clef;
  const number: Attributes = staff.tablature === null ? {} : { number: '1' };
  const strings = element('clef', { number: '2' }, [textElement('sign', 'TAB'), textElement('line', 5)]);
  return [
    ...(clef === undefined ? [] : [clefElement(clef, number)]),
    ...(index === 0 && staff.tablature !== null ? [strings] : []),
  ];
}

/** What a bar of a staff says anew of key, meter and clef, and in the first bar of all else. **Source** MusicXML 4.0, attributes: the order of elements. */
export function attributesOf(score: WrittenScore, staff: WrittenStaff, index: number): XmlElement[] {
  const [bar, before] = [score.bars[index], score.bars[index - 1]];
  if (bar === undefined) return [];
  const isFirst = before === undefined;
  const isHits = staff.clef.sign === 'percussion';
  const key = isHits ? { fifths: 0, mode: null } : writtenKey(bar.key, staff.transposition);
  const children = [
    ...(isFirst ? [textElement('divisions', score.ticksPerQuarter)] : []),
    ...(isSame(bar.key, before?.key) || (isHits && !isFirst) ? [] : [keyElement(key)]),
    ...(isSame(bar.meter, before?.meter) ? [] : [timeElement(bar.meter)]),
    ...(isFirst && staff.tablature !== null ? [textElement('staves', 2)] : []),
    ...clefElements(staff, index),
    ...(isFirst && isHits ? [element('staff-details', {}, [textElement('staff-lines', 1)])] : []),
    ...stringsAt(staff, index),
    ...(isFirst ? transposeElements(staff) : []),
  ];
  return children.length === 0 ? [] : [element('attributes', {}, children)];
}
