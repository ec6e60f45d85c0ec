import type { Fingerboard, Ornament, SoundingNote, Technique } from '../../score/score.ts';
import { childOf, numberOf, textOf, type XmlElement } from '../xml/tree.ts';
import { readBend } from './read-bend.ts';
import { readOrnaments } from './read-ornaments.ts';
import { techniqueInWords } from './text-spans.ts';
import type { RawAttachments, RawJoin, TupletRatio } from './raw-part.ts';

/** What the `<notations>` of a note say. */
export interface RawNotations {
  startsTie: boolean;
  stopsTie: boolean;
  string: number | null;
  fret: number | null;
  readonly techniques: Technique[];
  readonly ornaments: Ornament[];
  pluckingFinger: SoundingNote['pluckingFinger'];
  frettingFinger: number | null;
  words: string;
  /** Dynamics that stand at the note rather than at a moment of the part. */
  readonly dynamics: XmlElement[];
  readonly tuplets: TupletSign[];
  readonly joins: RawJoin[];
  attachments: RawAttachments | null;
}

/** The edge of a tuplet bracket as a note carries it. */
interface TupletSign {
  readonly edge: 'start' | 'stop';
  readonly number: string;
  readonly ratio: TupletRatio | null;
}

const noAttachments = (): RawAttachments => ({ lyrics: [], slurStarts: [], slurStops: [], bends: [] });

/** What notations carry beside signs, made when it is first asked for. */
export const attachmentsOf = (notations: RawNotations): RawAttachments => (notations.attachments ??= noAttachments());

/** Notations that say nothing yet. */
export const noNotations = (): RawNotations => ({
  startsTie: false,
  stopsTie: false,
  string: null,
  fret: null,
  techniques: [],
  ornaments: [],
  pluckingFinger: null,
  frettingFinger: null,
  words: '',
  dynamics: [],
  tuplets: [],
  joins: [],
  attachments: null,
});

const articulations: ReadonlyMap<string, Technique> = new Map(
  Object.entries({
    staccato: 'staccato',
    staccatissimo: 'staccato',
    accent: 'accent',
    'strong-accent': 'strongAccent',
    tenuto: 'tenuto',
    'detached-legato': 'tenuto',
    spiccato: 'staccato',
    scoop: 'slideIn',
    plop: 'slideInFromAbove',
    doit: 'slideOutUpwards',
    falloff: 'slideOut',
  }),
);

/** Ornaments that are techniques of the left hand. */
const handOrnaments: ReadonlyMap<string, Technique> = new Map(
  Object.entries({ 'wavy-line': 'vibrato', shake: 'vibrato' }),
);
/** The little finger has several letters. **Source** common practice, no source. */
const pluckingFingers: ReadonlyMap<string, SoundingNote['pluckingFinger']> = new Map(
  Object.entries({
    p: 'p',
    i: 'i',
    m: 'm',
    a: 'a',
    c: 'c',
    x: 'c',
    e: 'c',
    ch: 'c',
  }),
);
const reachedBy: ReadonlyMap<string, Technique> = new Map(
  Object.entries({
    'hammer-on': 'hammerOn',
    'pull-off': 'pullOff',
    slide: 'slide',
    glissando: 'slide',
  }),
);

function readSign(sign: XmlElement, notations: RawNotations): void {
  if (sign.name === 'string') notations.string = numberOf(sign);
  else if (sign.name === 'fret') notations.fret = numberOf(sign);
  else if (sign.name === 'pluck') readPluck(textOf(sign), notations);
  else if (sign.name === 'fingering') readFingering(sign, notations);
  else if (sign.name === 'bend') {
    notations.techniques.push('bend');
    attachmentsOf(notations).bends.push(readBend(sign));
  } else if (sign.name === 'harmonic') {
    notations.techniques.push(childOf(sign, 'artificial') === undefined ? 'naturalHarmonic' : 'artificialHarmonic');
  } else if (sign.name === 'tap') notations.techniques.push('tap');
  else if (sign.name === 'down-bow') notations.techniques.push('strumDown');
  else if (sign.name === 'up-bow') notations.techniques.push('strumUp');
  else if (sign.name === 'other-technical') readOtherTechnical(textOf(sign), notations);
  else readReached(sign, notations);
}

function readReached(sign: XmlElement, notations: RawNotations): void {
  const technique = reachedBy.get(sign.name);
  const { type: edge, number = '1' } = sign.attributes;
  if (technique === undefined || (edge !== 'start' && edge !== 'stop')) return;
  if (edge === 'stop') notations.techniques.push(technique);
  notations.joins.push({ name: sign.name as RawJoin['name'], edge, number });
}

function readPluck(letter: string, notations: RawNotations): void {
  notations.pluckingFinger ??= pluckingFingers.get(letter.toLowerCase()) ?? null;
}

function readFingering(sign: XmlElement, notations: RawNotations): void {
  if (/^[pimac]$/i.test(textOf(sign))) readPluck(textOf(sign), notations);
  const finger = numberOf(sign);
  if (finger !== null && Number.isInteger(finger) && finger >= 0 && finger <= 4) notations.frettingFinger ??= finger;
}

function readTied(tied: XmlElement, notations: RawNotations): void {
  const type = tied.attributes['type'];
  if (type === 'start' || type === 'continue') notations.startsTie = true;
  if (type === 'stop' || type === 'continue') notations.stopsTie = true;
  if (type === 'let-ring') notations.techniques.push('letRing');
}

/** Adds the techniques that the signs within an element are named after. */
function readNamed(parent: XmlElement, techniques: ReadonlyMap<string, Technique>, notations: RawNotations): void {
  for (const sign of parent.children) {
    const technique = typeof sign !== 'string' && sign.kind === 'element' ? techniques.get(sign.name) : undefined;
    if (technique !== undefined && !notations.techniques.includes(technique)) notations.techniques.push(technique);
  }
}

/** Words of a technique become that technique; all words may tell what a hit is. */
function readOtherTechnical(text: string, notations: RawNotations): void {
  notations.words += ` ${text}`;
  const technique = techniqueInWords(text);
  if (technique !== null) notations.techniques.push(technique);
}

function readSlur({ attributes }: XmlElement, notations: RawNotations): void {
  const number = attributes['number'] ?? '1';
  if (attributes['type'] === 'start') attachmentsOf(notations).slurStarts.push(number);
  if (attributes['type'] === 'stop') attachmentsOf(notations).slurStops.push(number);
}

function tupletRatio(tuplet: XmlElement): TupletRatio | null {
  const actual = numberOf(childOf(childOf(tuplet, 'tuplet-actual'), 'tuplet-number'));
  const normal = numberOf(childOf(childOf(tuplet, 'tuplet-normal'), 'tuplet-number'));
  return actual === null || normal === null ? null : { actual, normal };
}

function readTuplet(tuplet: XmlElement, notations: RawNotations): void {
  const { type, number = '1' } = tuplet.attributes;
  if (type === 'start' || type === 'stop') notations.tuplets.push({ edge: type, number, ratio: tupletRatio(tuplet) });
}

/** Adds what one `<notations>` element says. */
export function readNotations(element: XmlElement, notations: RawNotations): void {
  for (const node of element.children) {
    if (typeof node === 'string' || node.kind !== 'element') continue;
    if (node.name === 'tied') readTied(node, notations);
    else if (node.name === 'technical')
      for (const sign of node.children) {
        if (typeof sign !== 'string' && sign.kind === 'element') readSign(sign, notations);
      }
    else if (node.name === 'articulations') readNamed(node, articulations, notations);
    else if (node.name === 'ornaments') {
      readNamed(node, handOrnaments, notations);
      readOrnaments(node, notations.ornaments);
    } else if (node.name === 'slur') readSlur(node, notations);
    else if (node.name === 'tuplet') readTuplet(node, notations);
    else if (node.name === 'dynamics') notations.dynamics.push(node);
    else if (node.name === 'fermata') notations.techniques.push('fermata');
    else if (node.name === 'arpeggiate')
      notations.techniques.push(node.attributes['direction'] === 'down' ? 'arpeggioDown' : 'arpeggio');
    else readReached(node, notations);
  }
}

/** The string that notations name, if it can be one. */
export const stringOf = ({ string }: RawNotations): number | null =>
  string !== null && Number.isInteger(string) && string >= 1 && string <= 24 ? string : null;

/** The place on the fingerboard that notations name, if they name a whole one. */
export function fingerboardOf({ string, fret }: RawNotations): Fingerboard | null {
  if (string === null || fret === null) return null;
  const isPlace =
    Number.isInteger(string) && string >= 1 && string <= 24 && Number.isInteger(fret) && fret >= 0 && fret <= 48;
  return isPlace ? { string, fret } : null;
}
