import type { Key, Meter } from '../../score/score.ts';
import type { WrittenBar, WrittenClef, WrittenHead, WrittenScore, WrittenStaff } from '../../score/written.ts';
import { serialiseXml } from '../xml/serialise-xml.ts';
import { element, type XmlElement, type XmlNode } from '../xml/tree.ts';
import { BarAccidentals } from './accidentals.ts';
import { beamsOfBar } from './beaming.ts';
import { hitHeads, hitKinds } from './hit-heads.ts';
import { eventElements, textElement } from './write-event.ts';
import { writtenHeadId } from './written-ids.ts';

const doctype =
  'score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd"';

/** Gives every head of a written-out score an id of its own. */
class HeadIds {
  private readonly counts = new Map<string, number>();

  idOf({ source }: WrittenHead): string {
    const count = (this.counts.get(source) ?? 0) + 1;
    this.counts.set(source, count);
    return writtenHeadId(source, count);
  }
}

const onLines = (nodes: readonly XmlNode[]): XmlNode[] => [...nodes.flatMap((node): XmlNode[] => ['\n', node]), '\n'];

const partIdAt = (index: number): string => `P${index + 1}`;

function listEntry(staff: WrittenStaff, id: string): XmlElement {
  const hits = new Set(
    staff.bars.flat().flatMap(({ heads }) => heads.flatMap(({ sound }) => (sound.kind === 'hit' ? [sound.hit] : []))),
  );
  const instruments = hitKinds
    .filter((kind) => hits.has(kind))
    .map((kind) =>
      element('score-instrument', { id: `${id}-${kind}` }, [textElement('instrument-name', hitHeads[kind].name)]),
    );
  return element('score-part', { id }, [
    textElement('part-name', staff.name),
    textElement('part-abbreviation', staff.letter),
    ...instruments,
  ]);
}

function clefElement(clef: WrittenClef): XmlElement {
  if (clef.sign === 'percussion') return element('clef', {}, [textElement('sign', 'percussion')]);
  const octave = clef.octave === 0 ? [] : [textElement('clef-octave-change', clef.octave)];
  return element('clef', {}, [textElement('sign', clef.sign), textElement('line', clef.staffLine), ...octave]);
}

const keyElement = ({ fifths, mode }: Key): XmlElement =>
  element('key', {}, [textElement('fifths', fifths), ...(mode === null ? [] : [textElement('mode', mode)])]);

const timeElement = ({ beats, beatUnit }: Meter): XmlElement =>
  element('time', {}, [textElement('beats', beats.join('+')), textElement('beat-type', beatUnit)]);

const isSame = (a: Key | Meter, b: Key | Meter | undefined): boolean =>
  b !== undefined && JSON.stringify(a) === JSON.stringify(b);

interface StaffContext {
  readonly score: WrittenScore;
  readonly staff: WrittenStaff;
  readonly partIndex: number;
  readonly ids: HeadIds;
  readonly measureIds: readonly string[];
}

function attributesOf(bar: WrittenBar, before: WrittenBar | undefined, { score, staff }: StaffContext): XmlElement[] {
  const isFirst = before === undefined;
  const isHits = staff.clef.sign === 'percussion';
  const children = [
    ...(isFirst ? [textElement('divisions', score.ticksPerQuarter)] : []),
    ...(isSame(bar.key, before?.key) || (isHits && !isFirst)
      ? []
      : [keyElement(isHits ? { fifths: 0, mode: null } : bar.key)]),
    ...(isSame(bar.meter, before?.meter) ? [] : [timeElement(bar.meter)]),
    ...(isFirst ? [clefElement(staff.clef)] : []),
    ...(isFirst && isHits ? [element('staff-details', {}, [textElement('staff-lines', 1)])] : []),
  ];
  return children.length === 0 ? [] : [element('attributes', {}, children)];
}

const meterLength = ({ beats, beatUnit }: Meter, ticksPerQuarter: number): number =>
  (beats.reduce((sum, count) => sum + count, 0) * 4 * ticksPerQuarter) / beatUnit;

/** How late in its meter a bar begins: a bar that opens the score before its first full beat ends with its meter. */
function startOf(bar: WrittenBar, index: number, ticksPerQuarter: number): number {
  return bar.isPartial && index === 0 ? Math.max(0, meterLength(bar.meter, ticksPerQuarter) - bar.lengthTicks) : 0;
}

const finalBarline = element('barline', { location: 'right' }, [textElement('bar-style', 'light-heavy')]);

function measureElement(bar: WrittenBar, index: number, context: StaffContext): XmlElement {
  const { score, staff, partIndex } = context;
  const events = staff.bars[index] ?? [];
  const beams = beamsOfBar(events, bar.meter, score.ticksPerQuarter, startOf(bar, index, score.ticksPerQuarter));
  const accidentals = new BarAccidentals(bar.key.fifths);
  const notes = events.flatMap((event) =>
    eventElements(event, {
      partId: partIdAt(partIndex),
      accidentals,
      beams: beams.get(event) ?? [],
      idOf: (head) => context.ids.idOf(head),
    }),
  );
  const id = `${context.measureIds[index] ?? ''}${partIndex === 0 ? '' : `-p${partIndex + 1}`}`;
  const attributes = { number: bar.label, ...(bar.isPartial ? { implicit: 'yes' } : {}), id };
  const isLast = index === score.bars.length - 1;
  return element(
    'measure',
    attributes,
    onLines([...attributesOf(bar, score.bars[index - 1], context), ...notes, ...(isLast ? [finalBarline] : [])]),
  );
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

/** A written-out score as a MusicXML 4.0 document: a part for each staff, heads with the ids of writtenHeadId, bars with their own. **Source** MusicXML 4.0, score-partwise. */
export function writeWrittenScore(written: WrittenScore): string {
  const ids = new HeadIds();
  const measureIds = measureIdsOf(written.bars);
  const parts = written.staves.map((staff, partIndex) => {
    const context = { score: written, staff, partIndex, ids, measureIds };
    return element(
      'part',
      { id: partIdAt(partIndex) },
      onLines(written.bars.map((bar, index) => measureElement(bar, index, context))),
    );
  });
  const partList = element(
    'part-list',
    {},
    onLines(written.staves.map((staff, index) => listEntry(staff, partIdAt(index)))),
  );
  const encoding = element('encoding', {}, [textElement('software', 'Heddle')]);
  const root = element(
    'score-partwise',
    { version: '4.0' },
    onLines([
      ...(written.title === '' ? [] : [textElement('movement-title', written.title)]),
      element('identification', {}, [encoding]),
      partList,
      ...parts,
    ]),
  );
  return serialiseXml({ doctype, before: [], root, after: [] });
}
