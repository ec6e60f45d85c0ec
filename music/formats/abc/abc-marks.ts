import { isDynamicAccent, isDynamicLevel } from '../../score/dynamics.ts';
import { textElement } from '../musicxml-writer/text-element.ts';
import { element, type XmlElement } from '../xml/tree.ts';

/** What a decoration becomes: signs within a note's notations, or a direction before it. */
export interface MarkOf {
  readonly articulations: readonly XmlElement[];
  readonly ornaments: readonly XmlElement[];
  readonly technical: readonly XmlElement[];
  readonly others: readonly XmlElement[];
  readonly directions: readonly XmlElement[];
  /** Names that mean nothing to a score. */
  readonly unknown: readonly string[];
}

/** **Source** ABC 2.1, decorations, from memory; MusicXML 4.0, articulations. */
const articulations: Readonly<Record<string, string>> = {
  staccato: 'staccato',
  '.': 'staccato',
  accent: 'accent',
  '>': 'accent',
  emphasis: 'accent',
  marcato: 'strong-accent',
  '^': 'strong-accent',
  tenuto: 'tenuto',
  wedge: 'staccatissimo',
  breath: 'breath-mark',
  slide: 'scoop',
};

const ornaments: Readonly<Record<string, string>> = {
  trill: 'trill-mark',
  lowermordent: 'mordent',
  mordent: 'mordent',
  uppermordent: 'inverted-mordent',
  pralltriller: 'inverted-mordent',
  turn: 'turn',
  invertedturn: 'inverted-turn',
  turnx: 'turn',
  invertedturnx: 'inverted-turn',
};

const technical: Readonly<Record<string, string>> = {
  upbow: 'up-bow',
  downbow: 'down-bow',
  open: 'open-string',
  thumb: 'thumb-position',
  snap: 'snap-pizzicato',
  plus: 'stopped',
  '+': 'stopped',
};

const wedges: Readonly<Record<string, string>> = {
  'crescendo(': 'crescendo',
  '<(': 'crescendo',
  'diminuendo(': 'diminuendo',
  '>(': 'diminuendo',
  'crescendo)': 'stop',
  '<)': 'stop',
  'diminuendo)': 'stop',
  '>)': 'stop',
};

const jumpWords: Readonly<Record<string, readonly [words: string, sound: Readonly<Record<string, string>>]>> = {
  fine: ['Fine', { fine: 'yes' }],
  'D.C.': ['D.C.', { dacapo: 'yes' }],
  dacapo: ['D.C.', { dacapo: 'yes' }],
  'D.C.alfine': ['D.C. al Fine', { dacapo: 'yes' }],
  'D.C.alcoda': ['D.C. al Coda', { dacapo: 'yes' }],
  'D.S.': ['D.S.', { dalsegno: 'segno' }],
  'D.S.alfine': ['D.S. al Fine', { dalsegno: 'segno' }],
  'D.S.alcoda': ['D.S. al Coda', { dalsegno: 'segno' }],
  dacoda: ['To Coda', { tocoda: 'coda' }],
};

/** A direction of one type. */
export const directionOf = (type: XmlElement, sound: XmlElement | null = null, placement = 'above'): XmlElement =>
  element('direction', { placement }, [element('direction-type', {}, [type]), ...(sound === null ? [] : [sound])]);

function directionFor(name: string): XmlElement | null {
  if (isDynamicLevel(name) || isDynamicAccent(name))
    return directionOf(element('dynamics', {}, [element(name)]), null, 'below');
  const wedge = Object.hasOwn(wedges, name) ? wedges[name] : undefined;
  if (wedge !== undefined) return directionOf(element('wedge', { type: wedge }), null, 'below');
  if (name === 'segno') return directionOf(element('segno'), element('sound', { segno: 'segno' }));
  if (name === 'coda') return directionOf(element('coda'), element('sound', { coda: 'coda' }));
  const jump = Object.hasOwn(jumpWords, name) ? jumpWords[name] : undefined;
  return jump === undefined ? null : directionOf(textElement('words', jump[0]), element('sound', jump[1]));
}

/** Whether a decoration sends the player elsewhere from the end of its bar. */
export const isAtBarEnd = (name: string): boolean => Object.hasOwn(jumpWords, name);

/** Whether a decoration stands beside the notes and not at one of them. */
export const isDirection = (name: string): boolean => directionFor(name) !== null;

const pick = (table: Readonly<Record<string, string>>, name: string): XmlElement[] => {
  const found = Object.hasOwn(table, name) ? table[name] : undefined;
  return found === undefined ? [] : [element(found)];
};

function othersFor(name: string): XmlElement[] {
  if (name === 'fermata') return [element('fermata')];
  if (name === 'invertedfermata') return [element('fermata', { type: 'inverted' })];
  return name === 'arpeggio' ? [element('arpeggiate')] : [];
}

const fingering = (name: string): XmlElement[] => (/^[0-5]$/.test(name) ? [textElement('fingering', name)] : []);

/** What a note's decorations mean. */
export function marksOf(decorations: readonly string[]): MarkOf {
  const directions = decorations.flatMap((name) => directionFor(name) ?? []);
  const parts = {
    articulations: decorations.flatMap((name) => pick(articulations, name)),
    ornaments: decorations.flatMap((name) => pick(ornaments, name)),
    technical: decorations.flatMap((name) => [...pick(technical, name), ...fingering(name)]),
    others: decorations.flatMap(othersFor),
    directions,
  };
  const isKnown = (name: string): boolean =>
    [articulations, ornaments, technical].some((table) => Object.hasOwn(table, name)) ||
    fingering(name).length > 0 ||
    othersFor(name).length > 0 ||
    directionFor(name) !== null;
  return { ...parts, unknown: decorations.filter((name) => !isKnown(name)) };
}
