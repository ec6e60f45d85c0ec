import {
  childOf,
  childrenOf,
  childText,
  element,
  elementsOf,
  isElement,
  textOf,
  withChildren,
  type XmlElement,
  type XmlNode,
} from '../xml/tree.ts';

/** Changes to notes at the edges of an excerpt: what to leave out, what to put in the place of what, what to add. */
interface Edits {
  readonly removed: Set<XmlElement>;
  readonly replaced: Map<XmlElement, XmlElement>;
  readonly added: Map<XmlElement, XmlElement[]>;
}

interface PlacedNote {
  readonly note: XmlElement;
  readonly voice: string;
  readonly strand: string;
  readonly isPlain: boolean;
  readonly measureIndex: number;
  /** **Units** divisions from the start of the measure. */
  readonly offset: number;
}

const pairedNotations = new Set(['slur', 'tuplet', 'glissando', 'slide']);
const pairedWithin = new Set(['hammer-on', 'pull-off', 'wavy-line']);

function placed(note: XmlElement, measureIndex: number, offset: number): PlacedNote {
  const voice = childText(note, 'voice') || '1';
  const strand = `${childText(note, 'staff') || '1'} ${voice}`;
  const isPlain =
    childOf(note, 'chord') === undefined && childOf(note, 'grace') === undefined && childOf(note, 'rest') === undefined;
  return { note, voice, strand, isPlain, measureIndex, offset };
}

/** The notes of a measure with their distances from its start. */
function notesOf(measure: XmlElement, measureIndex: number): PlacedNote[] {
  const notes: PlacedNote[] = [];
  let cursor = 0;
  let chordOffset = 0;
  for (const node of elementsOf(measure)) {
    const duration = Number(childText(node, 'duration')) || 0;
    if (node.name === 'backup') cursor -= duration;
    else if (node.name === 'forward') cursor += duration;
    else if (node.name === 'note') {
      const isChordMember = childOf(node, 'chord') !== undefined;
      notes.push(placed(node, measureIndex, isChordMember ? chordOffset : cursor));
      if (isChordMember) continue;
      chordOffset = cursor;
      cursor += duration;
    }
  }
  return notes;
}

/** Notes in order of time: documents write one voice of a bar after the other, but signs of one number follow each other in time. */
const inTime = (notes: readonly PlacedNote[]): PlacedNote[] =>
  notes.toSorted((a, b) => a.measureIndex - b.measureIndex || a.offset - b.offset);

const heightOf = (note: XmlElement): string => {
  const drawn = childOf(note, 'pitch') ?? childOf(note, 'unpitched');
  return drawn === undefined ? '' : elementsOf(drawn).map(textOf).join(' ');
};

/** Ties whose other end lies outside are left out on both sides. */
function cutTies(notes: readonly PlacedNote[], edits: Edits): void {
  const open = new Map<string, XmlElement[][]>();
  for (const { note } of notes) {
    const signs = [
      ...childrenOf(note, 'tie'),
      ...childrenOf(note, 'notations').flatMap((notations) => childrenOf(notations, 'tied')),
    ];
    const stops = signs.filter((sign) => sign.attributes['type'] === 'stop');
    const starts = signs.filter((sign) => sign.attributes['type'] === 'start');
    const key = `${childText(note, 'staff')} ${heightOf(note)}`;
    const waiting = open.get(key) ?? [];
    if (stops.length > 0 && waiting.shift() === undefined) for (const sign of stops) edits.removed.add(sign);
    if (starts.length > 0) waiting.push(starts);
    open.set(key, waiting);
  }
  for (const sign of [...open.values()].flat(2)) edits.removed.add(sign);
}

interface OpenSign {
  readonly sign: XmlElement;
  readonly owner: PlacedNote;
}

function pairedSigns(note: XmlElement): XmlElement[] {
  return childrenOf(note, 'notations').flatMap((notations) =>
    elementsOf(notations).flatMap((sign) => {
      if (pairedNotations.has(sign.name)) return [sign];
      return sign.name === 'technical' || sign.name === 'ornaments'
        ? elementsOf(sign).filter(({ name }) => pairedWithin.has(name))
        : [];
    }),
  );
}

/** The signs in order of time; at one moment those of grace notes first, then stops before starts. */
function signsInTime(notes: readonly PlacedNote[]): OpenSign[] {
  const isStart = ({ sign }: OpenSign): boolean => sign.attributes['type'] === 'start';
  const isMain = ({ owner }: OpenSign): boolean => childOf(owner.note, 'grace') === undefined;
  return notes
    .flatMap((owner) => pairedSigns(owner.note).map((sign): OpenSign => ({ sign, owner })))
    .sort(
      (a, b) =>
        a.owner.measureIndex - b.owner.measureIndex ||
        a.owner.offset - b.owner.offset ||
        Number(isMain(a)) - Number(isMain(b)) ||
        Number(isStart(a)) - Number(isStart(b)),
    );
}

/** The start that a stop belongs to: of its own voice and staff, else of its voice, else the earliest. */
function takeStart(waiting: OpenSign[], { strand, voice }: PlacedNote): OpenSign | undefined {
  const ofStrand = waiting.findIndex(({ owner }) => owner.strand === strand);
  const ofVoice = waiting.findIndex(({ owner }) => owner.voice === voice);
  const at = ofStrand >= 0 ? ofStrand : Math.max(0, ofVoice);
  return waiting.splice(at, 1)[0];
}

/** Pairs starts and stops of slurs, tuplets, slides and the like; what stays single is closed, opened or left out. */
function cutSigns(notes: readonly PlacedNote[], edits: Edits): void {
  const open = new Map<string, OpenSign[]>();
  for (const single of signsInTime(notes)) {
    const { sign, owner } = single;
    const key = `${sign.name} ${sign.attributes['number'] ?? '1'}`;
    const waiting = open.get(key) ?? [];
    open.set(key, waiting);
    if (sign.attributes['type'] === 'start') waiting.push(single);
    else if (sign.attributes['type'] === 'stop' && takeStart(waiting, owner) === undefined)
      openFromEdge(single, notes, edits);
  }
  for (const single of [...open.values()].flat()) closeAtEdge(single, notes, edits);
}

/** Slurs that are joined to an edge get numbers that files hardly use, so that they meet no other. **Source** MusicXML 4.0, number-level: 1 to 16. */
const joinNumbers = [16, 15, 14, 13, 12, 11, 10, 9];

function joinAtEdge(
  { sign, owner }: OpenSign,
  edge: PlacedNote | undefined,
  type: 'start' | 'stop',
  edits: Edits,
): void {
  if (sign.name !== 'slur' || edge === undefined || edge === owner) {
    edits.removed.add(sign);
    return;
  }
  const number = String(joinNumbers[edits.replaced.size % joinNumbers.length]);
  edits.replaced.set(sign, { ...sign, attributes: { ...sign.attributes, number } });
  edits.added.set(edge.note, [...(edits.added.get(edge.note) ?? []), element('slur', { type, number })]);
}

const openFromEdge = (single: OpenSign, notes: readonly PlacedNote[], edits: Edits): void => {
  joinAtEdge(
    single,
    notes.find(({ strand, isPlain }) => isPlain && strand === single.owner.strand),
    'start',
    edits,
  );
};

const closeAtEdge = (single: OpenSign, notes: readonly PlacedNote[], edits: Edits): void => {
  joinAtEdge(
    single,
    notes.findLast(({ strand, isPlain }) => isPlain && strand === single.owner.strand),
    'stop',
    edits,
  );
};

/** Beams that come from before begin here, those that go on end here; a beam of one note is left out. */
function cutBeams(notes: readonly PlacedNote[], edits: Edits): void {
  const open = new Map<string, XmlElement[]>();
  for (const { note, voice } of notes) {
    for (const beam of childrenOf(note, 'beam')) {
      const key = `${voice} ${beam.attributes['number'] ?? '1'} ${childOf(note, 'grace') === undefined ? '' : 'grace'}`;
      const said = textOf(beam);
      const group = open.get(key);
      if (said === 'begin') open.set(key, [beam]);
      else if (said === 'continue') open.set(key, continued(group, beam, edits));
      else if (said === 'end') {
        if (group === undefined) edits.removed.add(beam);
        open.delete(key);
      }
    }
  }
  for (const group of open.values()) endBeam(group, edits);
}

function continued(group: XmlElement[] | undefined, beam: XmlElement, edits: Edits): XmlElement[] {
  if (group === undefined) edits.replaced.set(beam, withChildren(beam, ['begin']));
  return [...(group ?? []), beam];
}

function endBeam(group: readonly XmlElement[], edits: Edits): void {
  const last = group.at(-1);
  if (last === undefined) return;
  if (group.length === 1) edits.removed.add(last);
  else edits.replaced.set(last, withChildren(last, ['end']));
}

const containers = new Set(['notations', 'technical', 'ornaments']);

function edited(parent: XmlElement, edits: Edits): XmlElement | null {
  const children = parent.children.flatMap((node): XmlNode[] => {
    if (typeof node === 'string' || node.kind !== 'element') return [node];
    if (edits.removed.has(node)) return [];
    const replacement = edits.replaced.get(node);
    if (replacement !== undefined) return [replacement];
    if (!containers.has(node.name)) return [node];
    const inner = edited(node, edits);
    return inner === null ? [] : [inner];
  });
  const isEmptied = containers.has(parent.name) && !children.some((node) => isElement(node));
  return isEmptied ? null : withChildren(parent, children);
}

/** The elements of a note that stand after its notations. **Source** MusicXML 4.0, note. */
const afterNotations = new Set(['lyric', 'play', 'listen']);

function withAdded(note: XmlElement, added: readonly XmlElement[]): XmlElement {
  if (added.length === 0) return note;
  const at = note.children.findIndex((node) => isElement(node) && afterNotations.has(node.name));
  const notations = element('notations', {}, added);
  const place = at < 0 ? note.children.length : at;
  return withChildren(note, [...note.children.slice(0, place), notations, ...note.children.slice(place)]);
}

/** The measures with ties, slurs, tuplets, slides and beams that cross the first or last barline closed, opened or left out. */
export function withCutNotes(measures: readonly XmlElement[]): XmlElement[] {
  const written = measures.flatMap(notesOf);
  const notes = inTime(written);
  const edits: Edits = { removed: new Set(), replaced: new Map(), added: new Map() };
  cutTies(notes, edits);
  cutSigns(notes, edits);
  cutBeams(written, edits);
  return measures.map((measure) =>
    withChildren(
      measure,
      measure.children.map((node) => {
        if (!isElement(node, 'note')) return node;
        return withAdded(edited(node, edits) ?? node, edits.added.get(node) ?? []);
      }),
    ),
  );
}
