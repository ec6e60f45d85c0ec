import type { Issue, IssueCode } from '../../basis/issue.ts';
import { midiOf, type Pitch } from '../../basis/pitch.ts';
import { lcm } from '../../basis/fraction.ts';
import type { Key, Meter } from '../../score/score.ts';
import { soundingTuning } from './guitar.ts';
import { limits } from '../limits.ts';
import { childOf, childrenOf, childText, elementsOf, numberOf, textOf, type XmlElement } from '../xml/tree.ts';
import type { ClefMark } from '../../score/marks.ts';
import { soundingKey } from './bars.ts';
import { transposedBy, type RawBar, type RawMoment, type RawPart, type StaffKind } from './raw-part.ts';

/** Tells of something that a part says, at the place where it says it. */
export type ReportAttribute = (severity: Issue['severity'], code: IssueCode, detail: string) => void;

const signsOf = (fifths: number): string =>
  fifths === 0 ? 'no signs' : `${Math.abs(fifths)} ${fifths > 0 ? 'sharps' : 'flats'}`;

const steps = new Set<string>(['C', 'D', 'E', 'F', 'G', 'A', 'B']);

/** The pitch that three texts spell, or null where they spell none. */
export function pitchFromTexts(step: string, alter: string, octave: string): Pitch | null {
  const octaveNumber = Number(octave);
  const alterNumber = alter === '' ? 0 : Number(alter);
  if (!steps.has(step) || octave === '' || !Number.isInteger(octaveNumber) || !Number.isFinite(alterNumber))
    return null;
  if (Math.abs(octaveNumber) > 12 || Math.abs(alterNumber) > 4) return null;
  return { step: step as Pitch['step'], alter: alterNumber, octave: octaveNumber };
}

/** The meter of a `<time>`: several signatures in one are brought to the finest beat unit. Null where it names none. */
function meterOf(time: XmlElement): Meter | null {
  const groups = childrenOf(time, 'beats').map((beats) => textOf(beats).split('+').map(Number));
  const units = childrenOf(time, 'beat-type').map((unit) => Number(textOf(unit)));
  const isWhole = (value: number): boolean => Number.isInteger(value) && value > 0 && value <= 1024;
  if (groups.length === 0 || units.length !== groups.length || ![...groups.flat(), ...units].every(isWhole))
    return null;
  const beatUnit = units.reduce(lcm);
  return {
    beats: groups.flatMap((group, index) => group.map((beats) => (beats * beatUnit) / (units[index] ?? beatUnit))),
    beatUnit,
  };
}

/** Steps in the order in which signatures sharpen them. */
const sharpened = 'FCGDAEB';

/** What a signature of so many fifths does to a step. */
const alterIn = (fifths: number, step: string): number =>
  fifths > 0 ? Number(sharpened.indexOf(step) < fifths) : -Number(sharpened.indexOf(step) >= 7 + fifths);

/** The usual signature that is nearest to one that lists its own alterations, and at how many steps it differs; of equals the one with fewer signs. **Source** MusicXML 4.0, key: key-step, key-alter. */
function nearestSignature(element: XmlElement): { readonly fifths: number; readonly differing: number } {
  const listed = childrenOf(element, 'key-step').map(textOf);
  const alters = childrenOf(element, 'key-alter').map((alter) => Number(textOf(alter)));
  const own = new Map(listed.map((step, index) => [step, alters[index] ?? 0]));
  const differingFrom = (fifths: number): number =>
    Array.from(sharpened).filter((step) => (own.get(step) ?? 0) !== alterIn(fifths, step)).length;
  const all = Array.from({ length: 15 }, (_, index) => (index % 2 === 0 ? 0 - index / 2 : (index + 1) / 2));
  return all
    .map((fifths) => ({ fifths, differing: differingFrom(fifths) }))
    .reduce((best, candidate) => (candidate.differing < best.differing ? candidate : best));
}

function keyOf(element: XmlElement, report: ReportAttribute): Key {
  if (childOf(element, 'key-step') !== undefined) {
    const { fifths, differing } = nearestSignature(element);
    if (differing > 0)
      report(
        'warning',
        'value-repaired',
        `The key signature lists alterations of its own; the nearest usual one, of ${signsOf(fifths)}, was taken for the key. The pitches are as written.`,
      );
    return { fifths, mode: null };
  }
  const written = numberOf(childOf(element, 'fifths')) ?? 0;
  const fifths = Math.max(-7, Math.min(7, Math.round(written)));
  const mode = childText(element, 'mode').toLowerCase();
  if (fifths !== written)
    report('warning', 'value-repaired', `A key signature of ${written} fifths was taken as one of ${signsOf(fifths)}.`);
  return {
    fifths,
    mode: mode === 'major' || mode === 'minor' ? mode : null,
  };
}

function staffKindOfClef(sign: string): StaffKind {
  if (sign === 'TAB') return 'tablature';
  return sign === 'percussion' ? 'percussion' : 'notation';
}

const clefSigns = new Set<string>(['G', 'F', 'C', 'percussion', 'TAB']);
const usualLines: Readonly<Record<ClefMark['sign'], number>> = { G: 2, F: 4, C: 3, percussion: 3, TAB: 5 };

function keepClef(clef: XmlElement, staff: number, part: RawPart, moment: RawMoment): void {
  const written = childText(clef, 'sign');
  if (!clefSigns.has(written)) return;
  const sign = written as ClefMark['sign'];
  const staffLine = numberOf(childOf(clef, 'line')) ?? usualLines[sign];
  const octave = numberOf(childOf(clef, 'clef-octave-change')) ?? 0;
  part.clefs.push({ staff, sign, staffLine, octave, ...moment });
}

function readClef(clef: XmlElement, part: RawPart, moment: RawMoment): void {
  const staff = Number(clef.attributes['number'] ?? 1);
  keepClef(clef, staff, part, moment);
  if (part.staffKinds.has(staff)) return;
  const kind = staffKindOfClef(childText(clef, 'sign'));
  const isFirstNotation = kind === 'notation' && ![...part.staffKinds.values()].includes('notation');
  if (isFirstNotation) part.clefOctave = numberOf(childOf(clef, 'clef-octave-change')) ?? 0;
  part.staffKinds.set(staff, kind);
}

function tuningOf(details: XmlElement): number[] | null {
  const strings: number[] = [];
  for (const tuning of childrenOf(details, 'staff-tuning')) {
    const line = Number(tuning.attributes['line']);
    const pitch = pitchFromTexts(
      childText(tuning, 'tuning-step'),
      childText(tuning, 'tuning-alter'),
      childText(tuning, 'tuning-octave'),
    );
    if (pitch !== null && Number.isInteger(line) && line >= 1 && line <= 24) strings[line - 1] = midiOf(pitch);
  }
  const isComplete = strings.length >= 3 && Array.from(strings).every((midi) => Number.isFinite(midi));
  return isComplete ? strings.reverse() : null;
}

/** A tuning or a capo after the first is in force from its place on, for the notes after it. */
function readStaffDetails(details: XmlElement, part: RawPart, report: ReportAttribute): void {
  const before = part.strings ?? { tuning: part.tuning, capoFret: part.capoFret };
  const written = tuningOf(details);
  const isLater = part.heads.length > 0;
  const tuning = written === null ? before.tuning : isLater ? soundingTuning(written) : written;
  const capo = numberOf(childOf(details, 'capo'));
  const capoFret = capo === null || capo < 0 || capo > 24 ? before.capoFret : Math.round(capo);
  if (isLater && tuning?.join() !== before.tuning?.join())
    report('note', 'value-repaired', 'The tuning changes here; strings and frets after it were read in the new one.');
  if (isLater && capoFret !== before.capoFret)
    report(
      'note',
      'value-repaired',
      `The capo moves to fret ${capoFret ?? 0} here; the music after it was read with it.`,
    );
  if (!isLater || (part.tuning === null && part.capoFret === null && part.strings === null)) {
    part.tuning = tuning;
    part.capoFret = capoFret;
  } else part.strings = { tuning, capoFret, capoBy: (capoFret ?? 0) - (part.capoFret ?? 0) };
}

const semitonesOfTranspose = (transpose: XmlElement): number => {
  const chromatic = numberOf(childOf(transpose, 'chromatic')) ?? 0;
  const octaves = numberOf(childOf(transpose, 'octave-change')) ?? 0;
  const doubled = childOf(transpose, 'double') === undefined ? 0 : 12;
  return Math.round(chromatic + 12 * octaves) - doubled;
};

/** What the attributes of a part are read into, and where they stand. */
interface AttributeContext {
  readonly part: RawPart;
  readonly bar: RawBar;
  readonly moment: RawMoment;
  readonly report: ReportAttribute;
}

/** A transposition for one staff leaves the others as they are; one of tablature beside notation is not the part's. */
function readTranspose(transpose: XmlElement, part: RawPart): void {
  const semitones = semitonesOfTranspose(transpose);
  const staff = Number(transpose.attributes['number'] ?? 0) || 0;
  if (staff === 0) part.transpositions.clear();
  part.transpositions.set(staff, semitones);
  const isOfCopy = part.staffKinds.get(staff) === 'tablature' && [...part.staffKinds.values()].includes('notation');
  if (!isOfCopy) part.transposeSemitones ??= part.heads.length > 0 ? 0 : semitones;
}

function readStaves(staves: XmlElement, part: RawPart, report: ReportAttribute): void {
  const count = numberOf(staves) ?? NaN;
  if (Number.isInteger(count) && count >= 1 && count <= limits.staves)
    part.staffCount = Math.max(part.staffCount, count);
  else
    report(
      'warning',
      'value-repaired',
      `No part has “${textOf(staves)}” staves; those that something stands on were taken.`,
    );
}

/** Reads an `<attributes>` element, all but its divisions, into the part and the bar. */
export function readAttributes(attributes: XmlElement, { part, bar, moment, report }: AttributeContext): void {
  for (const node of attributes.children) {
    if (typeof node === 'string' || node.kind !== 'element') continue;
    if (node.name === 'time') readTime(node, { part, bar, moment, report });
    else if (node.name === 'clef') readClef(node, part, moment);
    else if (node.name === 'staves') readStaves(node, part, report);
    else if (node.name === 'staff-details') readStaffDetails(node, part, report);
    else if (node.name === 'transpose') readTranspose(node, part);
  }
  for (const key of childrenOf(attributes, 'key')) readKey(key, { part, bar, moment, report });
}

/** Of signatures for single staves, that of the first staff stands for the part; of several for the same, the last. */
const isForFirstStaff = ({ attributes }: XmlElement): boolean => (attributes['number'] ?? '1') === '1';

/** A key at the start of a bar is the bar's; one within it is a change, which lasts on into the bars that follow. Where the transposition has changed it is moved as the notes are. */
function readKey(element: XmlElement, { part, bar, moment, report }: AttributeContext): void {
  const key = soundingKey(keyOf(element, report), transposedBy(part, 1));
  if (moment.offsetTicks === 0) bar.key = isForFirstStaff(element) ? key : (bar.key ?? key);
  else {
    bar.keyAfter = key;
    part.keyChanges.push({ key, ...moment });
  }
}

function readTime(time: XmlElement, { bar, moment, report }: AttributeContext): void {
  if (childOf(time, 'senza-misura') !== undefined) {
    bar.isUnmetered = true;
    return;
  }
  const meter = meterOf(time);
  if (meter === null) {
    const text = elementsOf(time).map(textOf).join('/');
    report('warning', 'value-repaired', `The time signature “${text}” is none; the meter before it was kept.`);
  } else if (moment.offsetTicks > 0) bar.meterAfter = meter;
  else bar.meter = isForFirstStaff(time) ? meter : (bar.meter ?? meter);
}
