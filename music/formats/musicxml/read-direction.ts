import type { Jump } from '../../score/score.ts';
import { childOf, childrenOf, elementsOf, numberOf, textOf, type XmlElement } from '../xml/tree.ts';
import { readCapoWords } from './capo-words.ts';
import type { RawBar, RawMoment, RawPart } from './raw-part.ts';
import { readDynamics, readWedge } from './read-dynamics.ts';
import { drawnSwing, isTempo, metronomeTempo, swingOf } from './read-tempo.ts';
import { barreInWords, jumpsInWords, kindOfWords, swingInWords } from './read-words.ts';

/** Adds a jump to a bar unless it has it already. */
export function addJump(bar: RawBar, jump: Jump): void {
  if (!bar.jumps.includes(jump)) bar.jumps.push(jump);
}

function addTempo(part: RawPart, moment: RawMoment, quartersPerMinute: number): void {
  if (isTempo(quartersPerMinute)) part.tempos.push({ ...moment, quartersPerMinute });
}

const jumpAttributes: readonly (readonly [string, Jump])[] = [
  ['segno', 'segno'],
  ['coda', 'coda'],
  ['fine', 'fine'],
  ['dalsegno', 'dalSegno'],
  ['dacapo', 'daCapo'],
  ['tocoda', 'toCoda'],
];

/** Reads a `<sound>`: its tempo, its swing and its jumps. Tells whether it gave a tempo. */
export function readSound(sound: XmlElement, part: RawPart, bar: RawBar, moment: RawMoment): boolean {
  for (const [attribute, jump] of jumpAttributes) {
    const value = sound.attributes[attribute];
    if (value !== undefined && value !== 'no') addJump(bar, jump);
  }
  if (sound.attributes['forward-repeat'] === 'yes') bar.startsRepeat = true;
  const swing = childOf(sound, 'swing');
  const told = swing === undefined ? null : swingOf(swing);
  if (told !== null) part.swings.push({ ...moment, ...told });
  const tempo = Number(sound.attributes['tempo'] ?? NaN);
  addTempo(part, moment, tempo);
  return isTempo(tempo);
}

interface DirectionContext {
  readonly part: RawPart;
  readonly bar: RawBar;
  readonly moment: RawMoment;
  readonly staff: number;
  readonly goesToCoda: boolean;
  readonly hasSoundTempo: boolean;
  readonly standsWithTempo: boolean;
}

function readWords(text: string, { part, bar, moment, staff, standsWithTempo }: DirectionContext): void {
  if (text === '') return;
  part.words.push({ ...moment, text, staff, kind: kindOfWords(text, standsWithTempo) });
  for (const jump of jumpsInWords(text)) addJump(bar, jump);
  const swing = swingInWords(text);
  if (swing !== null) part.swings.push({ ...moment, ...swing });
  const barre = barreInWords(text);
  if (barre !== null) part.barres.push({ ...moment, ...barre });
  readCapoWords(text, part);
}

function readMetronome(metronome: XmlElement, { part, moment, hasSoundTempo }: DirectionContext): void {
  if (!hasSoundTempo) addTempo(part, moment, metronomeTempo(metronome) ?? NaN);
  const swing = drawnSwing(metronome);
  if (swing !== null) part.swings.push({ ...moment, ...swing });
}

function readType(type: XmlElement, context: DirectionContext): void {
  const { part, bar, moment, goesToCoda } = context;
  if (type.name === 'rehearsal') bar.rehearsalMark ??= textOf(type) || null;
  else if (type.name === 'segno') addJump(bar, 'segno');
  else if (type.name === 'coda') addJump(bar, goesToCoda ? 'toCoda' : 'coda');
  else if (type.name === 'wedge') readWedge(type, part, moment);
  else if (type.name === 'dynamics') readDynamics(type, part, moment);
  else if (type.name === 'metronome') readMetronome(type, context);
}

/** The words of a direction in one line: one sentence is often cut into pieces in different type. */
function wordsOf(types: readonly XmlElement[]): string {
  const pieces = types.filter(({ name }) => name === 'words').map(textOf);
  return pieces
    .filter((piece) => piece !== '')
    .join(' ')
    .replace(/\s+/g, ' ');
}

/** Reads a `<direction>` that stands at a moment. */
export function readDirection(direction: XmlElement, part: RawPart, bar: RawBar, moment: RawMoment): void {
  const sound = childOf(direction, 'sound');
  const hasSoundTempo = sound !== undefined && readSound(sound, part, bar, moment);
  const types = childrenOf(direction, 'direction-type').flatMap(elementsOf);
  const words = wordsOf(types);
  const context: DirectionContext = {
    part,
    bar,
    moment,
    staff: numberOf(childOf(direction, 'staff')) ?? 1,
    goesToCoda: sound?.attributes['tocoda'] !== undefined || /\bto\b|\bal(?:la)?\b/i.test(words),
    hasSoundTempo,
    standsWithTempo: hasSoundTempo || types.some(({ name }) => name === 'metronome'),
  };
  readWords(words, context);
  for (const type of types) readType(type, context);
}
