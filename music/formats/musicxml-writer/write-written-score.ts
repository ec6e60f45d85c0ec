import { lineId, type NoteId } from '../../basis/ids.ts';
import { barRest } from '../../score/bar-rest.ts';
import type { WrittenBar, WrittenScore, WrittenStaff } from '../../score/written.ts';
import { keyOfHit, percussionChannel } from '../midi/percussion-key.ts';
import { proposedFretsField } from '../musicxml/proposed-frets.ts';
import { serialiseXml } from '../xml/serialise-xml.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import { hitHeads, hitKinds } from './hit-heads.ts';
import { textElement } from './text-element.ts';
import { measureElement, onLines, type StaffContext } from './write-measure.ts';
import { writtenHeadId } from './written-ids.ts';

const doctype =
  'score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd"';

/** Gives every head of one kind of staff an id of its own. */
function headIds(staff: 'notes' | 'strings'): StaffContext['idOf'] {
  const counts = new Map<NoteId, number>();
  return ({ source }) => {
    const count = (counts.get(source) ?? 0) + 1;
    counts.set(source, count);
    return writtenHeadId(source, count, staff);
  };
}

const partIdAt = (index: number): string => `P${index + 1}`;

/** How other programs sound a hit; both count from 1. **Source** MusicXML 4.0, midi-instrument, midi-channel, midi-unpitched. */
const midiInstrument = (id: string, key: number): XmlElement =>
  element('midi-instrument', { id }, [
    textElement('midi-channel', percussionChannel + 1),
    textElement('midi-unpitched', key + 1),
  ]);

function listEntry(staff: WrittenStaff, id: string): XmlElement {
  const hits = new Set(
    staff.bars
      .flat()
      .flatMap(({ heads, graces }) => [...heads, ...graces])
      .flatMap(({ sound }) => (sound.kind === 'hit' ? [sound.hit] : [])),
  );
  const struck = hitKinds.filter((kind) => hits.has(kind));
  const instruments = struck.map((kind) =>
    element('score-instrument', { id: `${id}-${kind}` }, [textElement('instrument-name', hitHeads[kind].name)]),
  );
  const sounds = struck.map((kind) => midiInstrument(`${id}-${kind}`, keyOfHit[kind]));
  return element('score-part', { id }, [
    textElement('part-name', staff.name),
    textElement('part-abbreviation', staff.letter),
    ...instruments,
    ...sounds,
  ]);
}

/** Ids for the measures: the ids of the bars, told apart where a bar is written more than once. */
function measureIdsOf(bars: readonly WrittenBar[]): string[] {
  const counts = new Map<string, number>();
  return bars.map(({ bar }) => {
    const count = (counts.get(bar) ?? 0) + 1;
    counts.set(bar, count);
    return count === 1 ? bar : `${bar}.${count}`;
  });
}

/** What stands in a score without lines, which must have a part: bars of rests. **Source** MusicXML 4.0, part-list. */
function restingStaff({ bars }: WrittenScore): WrittenStaff {
  return {
    line: lineId('none'),
    name: '',
    letter: '',
    clef: { sign: 'G', staffLine: 2, octave: 0 },
    clefChanges: [],
    transposition: null,
    tablature: null,
    directions: [],
    bars: bars.map(({ lengthTicks }) => [barRest(lengthTicks)]),
  };
}

const proposesFrets = ({ staves }: WrittenScore): boolean =>
  staves.some(({ tablature }) => (tablature?.proposed.size ?? 0) > 0);

/** What the document says of itself: accidentals and beams are all there, so that a reader need not make them up. **Source** MusicXML 4.0, supports. */
const encoding = (): XmlElement =>
  element('encoding', {}, [
    textElement('software', 'Heddle'),
    element('supports', { element: 'accidental', type: 'yes' }),
    element('supports', { element: 'beam', type: 'yes' }),
  ]);

function identification(written: WrittenScore): XmlElement {
  const { composer } = written;
  const creator = composer === '' ? [] : [textElement('creator', composer, { type: 'composer' })];
  const fields = proposesFrets(written) ? [proposedFretsField()] : [];
  return element('identification', {}, [
    ...creator,
    encoding(),
    ...(fields.length === 0 ? [] : [element('miscellaneous', {}, fields)]),
  ]);
}

function partElements(written: WrittenScore): XmlElement[] {
  const common = {
    score: written,
    jumps: new Set(written.bars.flatMap(({ signs }) => signs.jumps)),
    measureIds: measureIdsOf(written.bars),
    idOf: headIds('notes'),
    stringIdOf: headIds('strings'),
  };
  return written.staves.map((staff, index) => {
    const context: StaffContext = { ...common, staff, partId: partIdAt(index), isFirstPart: index === 0 };
    const measures = written.bars.map((bar, barIndex) => measureElement(bar, barIndex, context));
    return element('part', { id: context.partId }, onLines(measures));
  });
}

/** The list of parts, under one bracket where an ensemble plays. **Source** MusicXML 4.0, part-group. */
function partList({ staves, bracket }: WrittenScore): XmlElement {
  const entries = staves.map((staff, index) => listEntry(staff, partIdAt(index)));
  if (bracket === undefined) return element('part-list', {}, onLines(entries));
  const start = element('part-group', { type: 'start', number: '1' }, [
    textElement('group-symbol', 'bracket'),
    textElement('group-barline', bracket === 'joined' ? 'yes' : 'no'),
  ]);
  const stop = element('part-group', { type: 'stop', number: '1' });
  return element('part-list', {}, onLines([start, ...entries, stop]));
}

/** A written-out score as a MusicXML 4.0 document: a part for each staff, heads with the ids of writtenHeadId, bars with their own. What is printed once for all lines stands in the first part; without lines there is one that rests. **Source** MusicXML 4.0, score-partwise. */
export function writeWrittenScore(score: WrittenScore): string {
  const written = score.staves.length > 0 ? score : { ...score, staves: [restingStaff(score)] };
  const root = element(
    'score-partwise',
    { version: '4.0' },
    onLines([
      ...(written.title === '' ? [] : [textElement('movement-title', written.title)]),
      identification(written),
      partList(written),
      ...partElements(written),
    ]),
  );
  return serialiseXml({ doctype, before: [], root, after: [] });
}
