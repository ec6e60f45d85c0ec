import type { Technique } from '../../score/score.ts';
import type {
  HeadDetails,
  InnerTuplet,
  TupletRatio,
  WrittenEvent,
  WrittenHead,
  WrittenJoin,
} from '../../score/written.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import { textElement } from './text-element.ts';

/** What of a note's details a staff shows: everything, or what belongs to notes, or what belongs to strings, where both staves stand. */
export type Shown = 'all' | 'notes' | 'strings';

const articulationNames: Partial<Record<Technique, string>> = {
  staccato: 'staccato',
  accent: 'accent',
  strongAccent: 'strong-accent',
  tenuto: 'tenuto',
};
const technicalElements: Partial<Record<Technique, () => XmlElement>> = {
  naturalHarmonic: () => element('harmonic', {}, [element('natural')]),
  artificialHarmonic: () => element('harmonic', {}, [element('artificial')]),
  strumDown: () => element('down-bow'),
  strumUp: () => element('up-bow'),
  palmMute: () => textElement('other-technical', 'palm mute'),
};

/** The ties of a head, as sound (`tie`) or as signs (`tied`). */
export const tieElements = (head: WrittenHead, name: 'tie' | 'tied'): XmlElement[] => [
  ...(head.isTiedFromBefore ? [element(name, { type: 'stop' })] : []),
  ...(head.isTiedOn ? [element(name, { type: 'start' })] : []),
];

const tupletPortion = (name: string, count: number): XmlElement =>
  element(name, {}, [textElement('tuplet-number', count)]);

function tupletElement(edge: 'start' | 'stop', number: number, { actual, normal }: TupletRatio): XmlElement {
  const attributes = { type: edge, number: String(number), ...(edge === 'start' ? { bracket: 'yes' } : {}) };
  if (edge === 'stop') return element('tuplet', attributes);
  return element('tuplet', attributes, [
    tupletPortion('tuplet-actual', actual),
    tupletPortion('tuplet-normal', normal),
  ]);
}

const outerRatio = (total: TupletRatio, inner: InnerTuplet | null): TupletRatio =>
  inner === null ? total : { actual: total.actual / inner.actual, normal: total.normal / inner.normal };

/** The brackets that begin or end at an event, the outer one with number 1. **Source** MusicXML 4.0, tuplet. */
export function tupletElements({ value, tupletEdge, innerTuplet }: WrittenEvent): XmlElement[] {
  const outer =
    tupletEdge === null || value.tuplet === null
      ? []
      : [tupletElement(tupletEdge, 1, outerRatio(value.tuplet, innerTuplet))];
  const inner = innerTuplet === null ? [] : [tupletElement(innerTuplet.edge, 2, innerTuplet)];
  return [...outer, ...inner];
}

const edgesOf = (joins: readonly WrittenJoin[], kind: WrittenJoin['kind']): readonly WrittenJoin[] =>
  joins.filter((join) => join.kind === kind).sort((a, b) => Number(a.edge === 'start') - Number(b.edge === 'start'));

const joinAttributes = ({ edge, number }: WrittenJoin): Readonly<Record<string, string>> => ({
  type: edge,
  number: String(number),
});

const slurElements = (joins: readonly WrittenJoin[]): XmlElement[] =>
  edgesOf(joins, 'slur').map((join) => element('slur', joinAttributes(join)));
const slideElements = (joins: readonly WrittenJoin[]): XmlElement[] =>
  edgesOf(joins, 'slide').map((join) => element('slide', joinAttributes(join)));

/** A hammer-on or pull-off: its letter stands where it begins. **Source** MusicXML 4.0, hammer-on, pull-off. */
function letteredJoins(joins: readonly WrittenJoin[]): XmlElement[] {
  const named = (kind: 'hammerOn' | 'pullOff', name: string, letter: string): XmlElement[] =>
    edgesOf(joins, kind).map((join) =>
      join.edge === 'start' ? textElement(name, letter, joinAttributes(join)) : element(name, joinAttributes(join)),
    );
  return [...named('hammerOn', 'hammer-on', 'H'), ...named('pullOff', 'pull-off', 'P')];
}

function bendElements({ bends, techniques }: HeadDetails): XmlElement[] {
  const shown = bends.length > 0 || !techniques.includes('bend') ? bends : [{ kind: 'bend', semitones: 2 } as const];
  return shown.map(({ kind, semitones }) =>
    element('bend', {}, [
      textElement('bend-alter', semitones),
      ...(kind === 'preBend' ? [element('pre-bend')] : []),
      ...(kind === 'release' ? [element('release')] : []),
    ]),
  );
}

function noteTechnicals({ pluckingFinger, frettingFinger, techniques }: HeadDetails): XmlElement[] {
  return [
    ...(frettingFinger === null ? [] : [textElement('fingering', frettingFinger)]),
    ...(pluckingFinger === null ? [] : [textElement('pluck', pluckingFinger)]),
    ...techniques.flatMap((technique) => technicalElements[technique]?.() ?? []),
  ];
}

const grouped = (name: string, children: XmlElement[]): XmlElement[] =>
  children.length === 0 ? [] : [element(name, {}, children)];

/** The place on the fingerboard as signs of a tablature. */
export const placeElements = ({ fingerboard }: Pick<WrittenHead, 'fingerboard'>): XmlElement[] =>
  fingerboard === null ? [] : [textElement('string', fingerboard.string), textElement('fret', fingerboard.fret)];

/** The signs of one staff that join a grace note to other notes, or name its place on the strings. */
export const graceNotations = (joins: readonly WrittenJoin[], place: XmlElement[], shown: Shown): XmlElement[] => [
  ...(shown === 'strings' ? [] : slurElements(joins)),
  ...(shown === 'notes' ? [] : slideElements(joins)),
  ...grouped('technical', [...place, ...(shown === 'notes' ? [] : letteredJoins(joins))]),
];

function articulationsOf({ techniques }: HeadDetails): XmlElement[] {
  const names = techniques.flatMap((technique) => articulationNames[technique] ?? []);
  return grouped(
    'articulations',
    names.map((name) => element(name)),
  );
}

const plainSigns = ({ techniques }: HeadDetails): XmlElement[] => [
  ...(techniques.includes('fermata') ? [element('fermata')] : []),
  ...(techniques.includes('arpeggio') ? [element('arpeggiate')] : []),
];

/** What a head's details print on one staff, in the order of MusicXML's notations. **Source** MusicXML 4.0, notations. */
export function detailNotations(details: HeadDetails | null, place: XmlElement[], shown: Shown): XmlElement[] {
  if (details === null) return grouped('technical', place);
  const forNotes = shown !== 'strings';
  const forStrings = shown !== 'notes';
  const technical = [
    ...(forNotes ? noteTechnicals(details) : []),
    ...place,
    ...(forStrings ? [...letteredJoins(details.joins), ...bendElements(details)] : []),
  ];
  return [
    ...(forNotes && details.techniques.includes('letRing') ? [element('tied', { type: 'let-ring' })] : []),
    ...(forNotes ? slurElements(details.joins) : []),
    ...(forStrings ? slideElements(details.joins) : []),
    ...grouped('technical', technical),
    ...(forNotes ? [...articulationsOf(details), ...plainSigns(details)] : []),
  ];
}
