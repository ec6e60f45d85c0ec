import type { Jump } from '../../score/score.ts';
import { childOf, childrenOf, elementsOf, numberOf, textOf, type XmlElement } from '../xml/tree.ts';
import { readCapoWords } from './capo-words.ts';
import { proposedFretsWords } from './proposed-frets.ts';
import type { RawBar, RawMoment, RawPart, RawTempo } from './raw-part.ts';
import { readDynamics, readWedge, type DynamicPlace } from './read-dynamics.ts';
import { drawnSwing, isTempo, metronomeTempo, swingOf, tempoFactor } from './read-tempo.ts';
import type { RawTextSpan } from './raw-part.ts';
import { barreInWords, jumpsInWords, kindOfWords, swingInWords } from './read-words.ts';

/** Adds a jump to a bar unless it has it already. */
export function addJump(bar: Pick<RawBar, 'jumps'>, jump: Jump): void {
  if (!bar.jumps.includes(jump)) bar.jumps.push(jump);
}

/** Adds a tempo to a part if it can be one, and tells whether it did. */
function addTempo(part: RawPart, { tempo, ...moment }: RawTempo): boolean {
  const isUsable = tempo.kind === 'equation' ? tempo.factor > 0 : isTempo(tempo.quartersPerMinute);
  if (isUsable) part.tempos.push({ tempo, ...moment });
  return isUsable;
}

const jumpAttributes: readonly (readonly [string, Jump])[] = [
  ['segno', 'segno'],
  ['coda', 'coda'],
  ['fine', 'fine'],
  ['dalsegno', 'dalSegno'],
  ['dacapo', 'daCapo'],
  ['tocoda', 'toCoda'],
];

const jumpsOfSound = (sound: XmlElement | undefined): Jump[] =>
  jumpAttributes.flatMap(([attribute, jump]) => {
    const value = sound?.attributes[attribute];
    return value === undefined || value === 'no' ? [] : [jump];
  });

/** What a direction is read into, and where it is printed and heard. */
interface DirectionPlace {
  readonly part: RawPart;
  readonly bar: RawBar;
  readonly moment: RawMoment;
  readonly soundMoment: RawMoment;
  /** Tells of what is left out, at the direction's place. */
  readonly report: (detail: string) => void;
}

/** What a `<sound>` is read into, and where it is heard. */
type SoundPlace = Pick<DirectionPlace, 'part' | 'bar' | 'soundMoment' | 'report'>;

/** Reads a `<sound>`: its tempo, its swing and its jumps. Tells whether it gave a tempo. */
export function readSound(sound: XmlElement, { part, bar, soundMoment, report }: SoundPlace): boolean {
  for (const jump of jumpsOfSound(sound)) addJump(bar, jump);
  if (sound.attributes['forward-repeat'] === 'yes') bar.startsRepeat = true;
  const swing = childOf(sound, 'swing');
  const told = swing === undefined ? null : swingOf(swing);
  if (told !== null) part.swings.push({ ...soundMoment, ...told });
  const { tempo } = sound.attributes;
  if (tempo === undefined) return false;
  const isTaken = addTempo(part, { tempo: { kind: 'sound', quartersPerMinute: Number(tempo) }, ...soundMoment });
  if (!isTaken) report(`A tempo of “${tempo}” quarter notes a minute cannot be played; the tempo goes on.`);
  return isTaken;
}

interface DirectionContext extends DirectionPlace {
  readonly staff: number;
  readonly dynamicPlace: DynamicPlace;
  readonly goesToCoda: boolean;
  /** It sends the player back: signs within it name where to, and do not stand for themselves. */
  readonly isReturn: boolean;
  readonly hasSoundTempo: boolean;
  /** The ratio of a swing is told, so that words need not be guessed from. */
  readonly hasSoundSwing: boolean;
  readonly standsWithTempo: boolean;
}

const spanSigns = new Set(['dashes', 'bracket']);

/** Opens the stretch that words stand over, with the line that begins in the same direction. */
function openSpan(text: string, types: readonly XmlElement[], { part, moment, staff }: DirectionContext): RawTextSpan {
  const line = types.find(({ name, attributes }) => spanSigns.has(name) && attributes['type'] === 'start');
  const number = line === undefined ? null : (line.attributes['number'] ?? '1');
  const span = { text, staff, number, end: null, ...moment };
  part.textSpans.push(span);
  return span;
}

function closeSpan(sign: XmlElement, { part, moment }: DirectionContext): void {
  const number = sign.attributes['number'] ?? '1';
  const open = part.textSpans.findLast((span) => span.number === number && span.end === null);
  if (open !== undefined) open.end = moment;
}

function readWords(text: string, types: readonly XmlElement[], context: DirectionContext): void {
  if (text === '' || text === proposedFretsWords) return;
  const { part, moment, staff, standsWithTempo } = context;
  const span = openSpan(text, types, context);
  part.words.push({ text, staff, kind: kindOfWords(text, standsWithTempo), ...moment });
  const swing = context.hasSoundSwing ? null : swingInWords(text);
  if (swing !== null) part.swings.push({ ...moment, ...swing });
  const barre = barreInWords(text);
  if (barre !== null) part.barres.push({ ...moment, ...barre, span });
  readCapoWords(text, part);
}

function drawnTempo(metronome: XmlElement): RawTempo['tempo'] {
  const factor = tempoFactor(metronome);
  if (factor !== null) return { kind: 'equation', factor };
  return { kind: 'metronome', quartersPerMinute: metronomeTempo(metronome) ?? NaN };
}

function readMetronome(metronome: XmlElement, { part, soundMoment, hasSoundTempo, report }: DirectionContext): void {
  const swing = drawnSwing(metronome);
  if (swing !== null) part.swings.push({ ...soundMoment, ...swing });
  const isUsed = hasSoundTempo || addTempo(part, { tempo: drawnTempo(metronome), ...soundMoment });
  if (!isUsed && swing === null) report('A metronome mark tells no tempo that can be read; the tempo goes on.');
}

/** A rehearsal mark that says Coda or Segno is where such a jump lands. */
function readRehearsal(text: string, bar: RawBar): void {
  bar.rehearsalMark ??= text || null;
  for (const jump of jumpsInWords(text)) if (jump === 'coda' || jump === 'segno') addJump(bar, jump);
}

function readType(type: XmlElement, context: DirectionContext): void {
  const { part, bar, goesToCoda, dynamicPlace } = context;
  if (type.name === 'rehearsal') readRehearsal(textOf(type), bar);
  else if (type.name === 'segno' && !context.isReturn) addJump(bar, 'segno');
  else if (type.name === 'coda' && !context.isReturn) addJump(bar, goesToCoda ? 'toCoda' : 'coda');
  else if (type.name === 'wedge') readWedge(type, part, dynamicPlace);
  else if (type.name === 'dynamics') readDynamics(type, part, dynamicPlace);
  else if (type.name === 'metronome') readMetronome(type, context);
  else if (spanSigns.has(type.name) && type.attributes['type'] === 'stop') closeSpan(type, context);
}

const signTexts: ReadonlyMap<string, string> = new Map([
  ['segno', '𝄋'],
  ['coda', '𝄌'],
]);
const noSigns: ReadonlyMap<string, string> = new Map();

/** The words of a direction in one line: one sentence is often cut into pieces in different type, with or without the signs among them. */
function wordsOf(types: readonly XmlElement[], signs = noSigns): string {
  return types
    .map((type) => (type.name === 'words' ? textOf(type) : (signs.get(type.name) ?? '')))
    .filter((piece) => piece !== '')
    .join(' ')
    .replace(/\s+/g, ' ');
}

/** Reads a `<direction>`. */
export function readDirection(direction: XmlElement, place: DirectionPlace): void {
  const { bar } = place;
  const sound = childOf(direction, 'sound');
  const hasSoundTempo = sound !== undefined && readSound(sound, place);
  const types = childrenOf(direction, 'direction-type').flatMap(elementsOf);
  const words = wordsOf(types);
  const jumps = words === '' ? [] : jumpsInWords(wordsOf(types, signTexts));
  for (const jump of jumps) addJump(bar, jump);
  const staff = numberOf(childOf(direction, 'staff'));
  const context: DirectionContext = {
    staff: staff ?? 1,
    dynamicPlace: { staff, placement: direction.attributes['placement'], ...place.moment },
    goesToCoda: sound?.attributes['tocoda'] !== undefined || /\bto\b|\bal(?:la)?\b/i.test(words),
    isReturn: [...jumps, ...jumpsOfSound(sound)].some((jump) => jump === 'daCapo' || jump === 'dalSegno'),
    hasSoundTempo,
    hasSoundSwing: childOf(sound, 'swing') !== undefined,
    standsWithTempo: hasSoundTempo || types.some(({ name }) => name === 'metronome'),
    ...place,
  };
  readWords(words, types, context);
  for (const type of types) readType(type, context);
}
