import type { NoteId } from '../../basis/ids.ts';
import type { Jump, Meter } from '../../score/score.ts';
import type {
  SetupChange,
  WrittenBar,
  WrittenDirection,
  WrittenEvent,
  WrittenScore,
  WrittenStaff,
} from '../../score/written.ts';
import { proposedFretsWords } from '../musicxml/proposed-frets.ts';
import { element, type XmlElement, type XmlNode } from '../xml/tree.ts';
import { BarAccidentals } from './accidentals.ts';
import { beamsOfBar } from './beaming.ts';
import { textElement } from './text-element.ts';
import { writtenKey } from './transposed.ts';
import { attributesOf, changedStrings } from './write-attributes.ts';
import { leftBarline, rightBarline } from './write-barlines.ts';
import { closingSigns, directionElement, openingSigns } from './write-directions.ts';
import { eventElements, stringElements, type EventContext } from './write-event.ts';

/** What the writer of a staff's measures must know of the whole. */
export interface StaffContext {
  readonly score: WrittenScore;
  readonly staff: WrittenStaff;
  readonly partId: string;
  /** Whether what is printed once for all lines stands here. */
  readonly isFirstPart: boolean;
  readonly jumps: ReadonlySet<Jump>;
  readonly measureIds: readonly string[];
  readonly idOf: EventContext['idOf'];
  readonly stringIdOf: EventContext['idOf'];
}

/** Nodes on lines of their own. */
export const onLines = (nodes: readonly XmlNode[]): XmlNode[] => [
  ...nodes.flatMap((node): XmlNode[] => ['\n', node]),
  '\n',
];

const meterLength = ({ beats, beatUnit }: Meter, ticksPerQuarter: number): number =>
  (beats.reduce((sum, count) => sum + count, 0) * 4 * ticksPerQuarter) / beatUnit;

/** How late in its meter a bar begins: a bar that opens the score before its first full beat ends with its meter. */
export function startOf(bar: WrittenBar, index: number, ticksPerQuarter: number): number {
  return bar.isPartial && index === 0 ? Math.max(0, meterLength(bar.meter, ticksPerQuarter) - bar.lengthTicks) : 0;
}

/** Directions still to be printed, taken out as the events pass by. */
class Waiting {
  private readonly directions: readonly WrittenDirection[];
  private next = 0;

  constructor(directions: readonly WrittenDirection[]) {
    this.directions = [...directions].sort((a, b) => a.onsetTicks - b.onsetTicks);
  }

  before(ticks: number): readonly WrittenDirection[] {
    const from = this.next;
    while ((this.directions[this.next]?.onsetTicks ?? Infinity) < ticks) this.next += 1;
    return this.directions.slice(from, this.next);
  }
}

/** What is printed at a staff in one bar; a hairpin that ends with the bar ends before the bar line, not behind it. */
function ownDirections(
  { directions }: WrittenStaff,
  index: number,
  { lengthTicks }: WrittenBar,
): readonly WrittenDirection[] {
  const endsBefore = ({ kind, onsetTicks }: WrittenDirection): boolean => kind === 'hairpinStop' && onsetTicks === 0;
  const ended = (directions[index + 1] ?? []).filter(endsBefore);
  return [
    ...(directions[index] ?? []).filter((direction) => index === 0 || !endsBefore(direction)),
    ...ended.map((direction) => ({ ...direction, onsetTicks: lengthTicks })),
  ];
}

function noteElements(bar: WrittenBar, index: number, context: StaffContext): XmlElement[] {
  const { score, staff, partId } = context;
  const { transposition, tablature } = staff;
  const events = staff.bars[index] ?? [];
  const beams = beamsOfBar(events, bar.meter, score.ticksPerQuarter, startOf(bar, index, score.ticksPerQuarter));
  const common = {
    partId,
    transposition,
    accidentals: new BarAccidentals(writtenKey(bar.key, transposition).fifths),
    staffNumber: tablature === null ? null : 1,
    shown: tablature === null ? 'all' : 'notes',
    proposed: new Set<NoteId>(),
    idOf: context.idOf,
  } as const;
  const waiting = new Waiting([...(context.isFirstPart ? bar.directions : []), ...ownDirections(staff, index, bar)]);
  const shownAt = (until: number, fromTicks: number): XmlElement[] =>
    waiting.before(until).map((written) => directionElement(written, written.onsetTicks - fromTicks, transposition));
  return [
    ...events.flatMap((event: WrittenEvent) => [
      ...shownAt(event.onsetTicks + event.lengthTicks, event.onsetTicks),
      ...eventElements(event, { ...common, beams: beams.get(event) ?? [] }),
    ]),
    ...shownAt(Infinity, bar.lengthTicks),
  ];
}

/** What stands over a tablature with proposed frets. **Source** MusicXML 4.0, direction. */
const bracketsExplained = (): XmlElement =>
  element('direction', { placement: 'above' }, [
    element('direction-type', {}, [textElement('words', proposedFretsWords)]),
    textElement('staff', 2),
  ]);

/** The same bar on the tablature staff, after a step back to its start. */
function tablatureElements(bar: WrittenBar, index: number, { staff, partId, stringIdOf }: StaffContext): XmlElement[] {
  if (staff.tablature === null) return [];
  const within = staff.tablature.changes?.filter((change) => change.barIndex === index && change.onsetTicks > 0);
  const changeAt = ({ onsetTicks }: WrittenEvent): readonly SetupChange[] | undefined =>
    within?.filter((change) => change.onsetTicks === onsetTicks);
  const context: EventContext = {
    partId,
    transposition: staff.transposition,
    accidentals: null,
    beams: [],
    staffNumber: 2,
    shown: 'strings',
    proposed: staff.tablature.proposed,
    idOf: stringIdOf,
  };
  return [
    element('backup', {}, [textElement('duration', bar.lengthTicks)]),
    ...(index === 0 && staff.tablature.proposed.size > 0 ? [bracketsExplained()] : []),
    ...(staff.bars[index] ?? []).flatMap((event) => [
      ...(changeAt(event)?.map(changedStrings) ?? []),
      ...stringElements(event, context),
    ]),
  ];
}

/** One bar of one part. **Source** MusicXML 4.0, measure. */
export function measureElement(bar: WrittenBar, index: number, context: StaffContext): XmlElement {
  const { score, staff, isFirstPart, measureIds, partId } = context;
  const id = `${measureIds[index] ?? ''}${isFirstPart ? '' : `-${partId.toLowerCase()}`}`;
  const attributes = { number: bar.label, ...(bar.isPartial ? { implicit: 'yes' } : {}), id };
  return element(
    'measure',
    attributes,
    onLines([
      ...leftBarline(score.bars, index),
      ...attributesOf(score, staff, index),
      ...(isFirstPart ? openingSigns(bar) : []),
      ...noteElements(bar, index, context),
      ...(isFirstPart ? closingSigns(bar, context.jumps) : []),
      ...tablatureElements(bar, index, context),
      ...rightBarline(score.bars, index),
    ]),
  );
}
