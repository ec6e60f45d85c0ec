import type { NoteId } from '../../basis/ids.ts';
import { movedOrnament } from '../../score/ornaments.ts';
import type { Transposition, WrittenEvent, WrittenGrace, WrittenHead, WrittenLyric } from '../../score/written.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import type { BarAccidentals } from './accidentals.ts';
import { beamElements } from './beam-elements.ts';
import { beamsWithin, type Beams } from './beaming.ts';
import { hitHeads } from './hit-heads.ts';
import { textElement } from './text-element.ts';
import { writtenPitch } from './transposed.ts';
import { ornamentElements } from './write-ornaments.ts';
import {
  detailNotations,
  graceNotations,
  placeElements,
  tieElements,
  tupletElements,
  type Shown,
} from './write-notations.ts';

/** What the writer of an event must know of its surroundings. */
export interface EventContext {
  readonly partId: string;
  readonly transposition: Transposition | null;
  /** Null on a tablature staff, which prints no accidentals. */
  readonly accidentals: BarAccidentals | null;
  readonly beams: Beams;
  /** The number of the staff within its part; null where it is the only one. */
  readonly staffNumber: number | null;
  readonly shown: Shown;
  /** Notes whose place on the strings is proposed. */
  readonly proposed: ReadonlySet<NoteId>;
  readonly idOf: (head: Pick<WrittenHead, 'source'>) => string;
}

type Sounded = Pick<WrittenHead, 'sound'>;

function soundElement({ sound }: Sounded, { transposition }: EventContext): XmlElement {
  if (sound.kind === 'hit') {
    const { step, octave } = hitHeads[sound.hit];
    return element('unpitched', {}, [textElement('display-step', step), textElement('display-octave', octave)]);
  }
  const { step, alter, octave } = writtenPitch(sound.pitch, transposition);
  const altered = alter === 0 ? [] : [textElement('alter', alter)];
  return element('pitch', {}, [textElement('step', step), ...altered, textElement('octave', octave)]);
}

function valueElements({ value, isBarRest }: WrittenEvent): XmlElement[] {
  if (isBarRest) return [];
  return [textElement('type', value.type), ...Array.from({ length: value.dots }, () => element('dot'))];
}

function timeModification({ value, isBarRest }: WrittenEvent): XmlElement[] {
  if (value.tuplet === null || isBarRest) return [];
  const { actual, normal } = value.tuplet;
  return [element('time-modification', {}, [textElement('actual-notes', actual), textElement('normal-notes', normal)])];
}

const notationsOf = (signs: XmlElement[]): XmlElement[] =>
  signs.length === 0 ? [] : [element('notations', {}, signs)];

function accidentalOf(head: Sounded & { readonly isTiedFromBefore: boolean }, context: EventContext): XmlElement[] {
  if (head.sound.kind !== 'pitched' || context.accidentals === null) return [];
  const pitch = writtenPitch(head.sound.pitch, context.transposition);
  const name = context.accidentals.before(pitch, head.isTiedFromBefore);
  return name === null ? [] : [textElement('accidental', name)];
}

const staffElement = ({ staffNumber }: EventContext): XmlElement[] =>
  staffNumber === null ? [] : [textElement('staff', staffNumber)];

const voiceElement = ({ shown }: EventContext): XmlElement => textElement('voice', shown === 'strings' ? 2 : 1);

const instrumentElement = ({ sound }: Sounded, { partId }: EventContext): XmlElement[] =>
  sound.kind === 'hit' ? [element('instrument', { id: `${partId}-${sound.hit}` })] : [];

const hasPlace = ({ shown }: EventContext): boolean => shown === 'strings';

/** The shape of a head: an x for a hit, brackets around a fret that is proposed. **Source** MusicXML 4.0, notehead. */
function headShape({ sound, source }: Sounded & Pick<WrittenHead, 'source'>, context: EventContext): XmlElement[] {
  const isHit = sound.kind === 'hit';
  const stem = hasPlace(context) ? ['none'] : isHit ? ['up'] : [];
  const brackets = hasPlace(context) && context.proposed.has(source) ? { parentheses: 'yes' } : null;
  const heads = isHit || brackets !== null ? [textElement('notehead', isHit ? 'x' : 'normal', brackets ?? {})] : [];
  return [...stem.map((text) => textElement('stem', text)), ...heads];
}

/** What may stand as a number. **Source** XML Schema, xs:NMTOKEN. */
const isToken = (text: string): boolean => /^[\w.:-]+$/.test(text);

function lyricElement({ verse, text, syllabic, isExtended }: WrittenLyric): XmlElement {
  const sung = text === '' ? [] : [textElement('syllabic', syllabic), textElement('text', text)];
  return element('lyric', isToken(verse) ? { number: verse } : { name: verse }, [
    ...sung,
    ...(isExtended ? [element('extend')] : []),
  ]);
}

/** The ornaments of a head on a staff of notes, with the accidentals of its written pitch. */
function ornamentsOf({ sound, details }: WrittenHead, { shown, transposition }: EventContext): XmlElement[] {
  if (shown === 'strings') return [];
  const ornaments = details?.ornaments ?? [];
  if (sound.kind === 'hit') return ornamentElements(ornaments);
  const written = writtenPitch(sound.pitch, transposition);
  return ornamentElements(ornaments.map((ornament) => movedOrnament(ornament, sound.pitch, written)));
}

const lyricElements = ({ details }: WrittenHead, { shown }: EventContext): XmlElement[] =>
  shown === 'strings' ? [] : (details?.lyrics ?? []).map(lyricElement);

function headElement(event: WrittenEvent, head: WrittenHead, index: number, context: EventContext): XmlElement {
  const place = hasPlace(context) ? placeElements(head) : [];
  const tuplets = index > 0 || context.shown === 'strings' ? [] : tupletElements(event);
  return element('note', { id: context.idOf(head) }, [
    ...(index > 0 ? [element('chord')] : []),
    soundElement(head, context),
    textElement('duration', event.lengthTicks),
    ...tieElements(head, 'tie'),
    ...instrumentElement(head, context),
    voiceElement(context),
    ...valueElements(event),
    ...accidentalOf(head, context),
    ...timeModification(event),
    ...headShape(head, context),
    ...staffElement(context),
    ...(index > 0 ? [] : beamElements(context.beams)),
    ...notationsOf([
      ...tieElements(head, 'tied'),
      ...tuplets,
      ...detailNotations(head.details, place, context.shown),
      ...ornamentsOf(head, context),
    ]),
    ...lyricElements(head, context),
  ]);
}

function restElement(event: WrittenEvent, context: EventContext): XmlElement {
  return element('note', {}, [
    element('rest', event.isBarRest ? { measure: 'yes' } : {}),
    textElement('duration', event.lengthTicks),
    voiceElement(context),
    ...valueElements(event),
    ...timeModification(event),
    ...staffElement(context),
    ...notationsOf(tupletElements(event)),
  ]);
}

/** Grace notes one after the other, each with those that are struck with it. */
function graceGroups(graces: readonly WrittenGrace[]): (readonly WrittenGrace[])[] {
  const groups: WrittenGrace[][] = [];
  for (const grace of graces) {
    const last = grace.isChordMember === true ? groups.at(-1) : undefined;
    if (last === undefined) groups.push([grace]);
    else last.push(grace);
  }
  return groups;
}

/** Grace notes that follow each other, under beams of their own. */
function graceElements(graces: readonly WrittenGrace[], context: EventContext): XmlElement[] {
  const groups = graceGroups(graces);
  const isBeamed = groups.length > 1 && !hasPlace(context);
  const run = groups.map(() => ({ value: { type: '16th' } }) as const);
  return groups.flatMap((group, index) =>
    group.map((grace, place) => {
      const beams = isBeamed && place === 0 ? beamsWithin(run, index) : [];
      return graceElement(grace, { isAlone: groups.length === 1, isChordMember: place > 0, beams }, context);
    }),
  );
}

interface GracePlace {
  readonly isAlone: boolean;
  readonly isChordMember: boolean;
  readonly beams: Beams;
}

/** One grace note alone is an eighth, several are sixteenths. **Source** common practice, no source. */
function graceElement(
  grace: WrittenGrace,
  { isAlone, isChordMember, beams }: GracePlace,
  context: EventContext,
): XmlElement {
  const place = hasPlace(context) ? placeElements(grace) : [];
  return element('note', { id: context.idOf(grace) }, [
    element('grace', grace.hasSlash ? { slash: 'yes' } : {}),
    ...(isChordMember ? [element('chord')] : []),
    soundElement(grace, context),
    ...instrumentElement(grace, context),
    voiceElement(context),
    textElement('type', isAlone ? 'eighth' : '16th'),
    ...accidentalOf({ ...grace, isTiedFromBefore: false }, context),
    ...headShape(grace, context),
    ...staffElement(context),
    ...beamElements(beams),
    ...notationsOf(graceNotations(grace.joins, place, context.shown)),
  ]);
}

/** An event as `<note>` elements, its grace notes before it, a chord's heads one after the other. **Source** MusicXML 4.0, note: the order of elements. */
export const eventElements = (event: WrittenEvent, context: EventContext): XmlElement[] =>
  event.heads.length === 0
    ? [restElement(event, context)]
    : [
        ...graceElements(event.graces, context),
        ...event.heads.map((head, index) => headElement(event, head, index, context)),
      ];

/** An event as it stands on a tablature staff: the heads that have a place on the strings, or a gap. */
export function stringElements(event: WrittenEvent, context: EventContext): XmlElement[] {
  const isPlaced = ({ fingerboard }: Pick<WrittenHead, 'fingerboard'>): boolean => fingerboard !== null;
  const heads = event.heads.filter(isPlaced);
  if (heads.length > 0) return eventElements({ ...event, heads, graces: event.graces.filter(isPlaced) }, context);
  return [
    element('forward', {}, [
      textElement('duration', event.lengthTicks),
      voiceElement(context),
      ...staffElement(context),
    ]),
  ];
}
