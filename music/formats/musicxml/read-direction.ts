import { quartersOfValue } from './printed-value.ts';
import { readCapoWords } from './capo-words.ts';
import type { DynamicMark, Jump } from '../../score/score.ts';
import { childOf, childrenOf, childText, elementsOf, numberOf, textOf, type XmlElement } from '../xml/tree.ts';
import type { RawBar, RawMoment, RawPart } from './raw-part.ts';

type Level = Extract<DynamicMark, { kind: 'level' }>['level'];
const levels = new Set<string>(['ppp', 'pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff']);
/** Adds a jump to a bar unless it has it already. */
export function addJump(bar: RawBar, jump: Jump): void {
  if (!bar.jumps.includes(jump)) bar.jumps.push(jump);
}

/** The tempo of a metronome mark in quarter notes a minute, or null where it equates note values. */
function metronomeTempo(metronome: XmlElement): number | null {
  const quarters = quartersOfValue[childText(metronome, 'beat-unit')];
  const perMinute = /\d+(\.\d+)?/.exec(childText(metronome, 'per-minute'))?.[0];
  if (quarters === undefined || perMinute === undefined) return null;
  const dots = childrenOf(metronome, 'beat-unit-dot').length;
  return Number(perMinute) * quarters * (2 - 0.5 ** dots);
}

const isTempo = (tempo: number): boolean => Number.isFinite(tempo) && tempo >= 1 && tempo <= 1000;

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

/** Reads a `<sound>`: its tempo and its jumps. Tells whether it gave a tempo. */
export function readSound(sound: XmlElement, part: RawPart, bar: RawBar, moment: RawMoment): boolean {
  for (const [attribute, jump] of jumpAttributes) {
    const value = sound.attributes[attribute];
    if (value !== undefined && value !== 'no') addJump(bar, jump);
  }
  const tempo = Number(sound.attributes['tempo'] ?? NaN);
  addTempo(part, moment, tempo);
  return isTempo(tempo);
}

const jumpWords: readonly (readonly [RegExp, Jump])[] = [
  [/\b(d\.\s?c\.|da capo)|^\s*d\.?\s?c\.?(\s+al\s.*)?$/i, 'daCapo'],
  [/\b(d\.\s?s\.|dal segno)|^\s*d\.?\s?s\.?(\s+al\s.*)?$/i, 'dalSegno'],
  [/^\s*(to coda|al coda$)/i, 'toCoda'],
  [/^\s*coda\s*$/i, 'coda'],
  [/^\s*fine\s*$/i, 'fine'],
];

function readWords(text: string, part: RawPart, bar: RawBar, moment: RawMoment, staff: number): void {
  if (text === '') return;
  part.words.push({ ...moment, text, staff });
  for (const [pattern, jump] of jumpWords) if (pattern.test(text)) addJump(bar, jump);
  readCapoWords(text, part);
}

function readWedge(wedge: XmlElement, part: RawPart, moment: RawMoment): void {
  const type = wedge.attributes['type'];
  const number = wedge.attributes['number'] ?? '1';
  if (type === 'stop') part.dynamics.push({ ...moment, mark: { kind: 'hairpinStop', number } });
  else if (type === 'crescendo' || type === 'diminuendo') {
    const direction = type === 'crescendo' ? 'louder' : 'softer';
    part.dynamics.push({ ...moment, mark: { kind: 'hairpinStart', direction, number } });
  }
}

function readDynamics(dynamics: XmlElement, part: RawPart, moment: RawMoment): void {
  const level = elementsOf(dynamics)
    .map(({ name }) => name)
    .find((name) => levels.has(name));
  if (level !== undefined) part.dynamics.push({ ...moment, mark: { kind: 'level', level: level as Level } });
}

interface DirectionContext {
  readonly part: RawPart;
  readonly bar: RawBar;
  readonly moment: RawMoment;
  readonly staff: number;
  readonly goesToCoda: boolean;
  readonly hasSoundTempo: boolean;
}

function readType(type: XmlElement, { part, bar, moment, staff, goesToCoda, hasSoundTempo }: DirectionContext): void {
  if (type.name === 'words') readWords(textOf(type), part, bar, moment, staff);
  else if (type.name === 'rehearsal') bar.rehearsalMark ??= textOf(type) || null;
  else if (type.name === 'segno') addJump(bar, 'segno');
  else if (type.name === 'coda') addJump(bar, goesToCoda ? 'toCoda' : 'coda');
  else if (type.name === 'wedge') readWedge(type, part, moment);
  else if (type.name === 'dynamics') readDynamics(type, part, moment);
  else if (type.name === 'metronome' && !hasSoundTempo) addTempo(part, moment, metronomeTempo(type) ?? NaN);
}

/** Reads a `<direction>` that stands at a moment. */
export function readDirection(direction: XmlElement, part: RawPart, bar: RawBar, moment: RawMoment): void {
  const sound = childOf(direction, 'sound');
  const hasSoundTempo = sound !== undefined && readSound(sound, part, bar, moment);
  const types = childrenOf(direction, 'direction-type').flatMap(elementsOf);
  const saysToCoda = types.some((type) => type.name === 'words' && /\bto\b/i.test(textOf(type)));
  const goesToCoda = sound?.attributes['tocoda'] !== undefined || saysToCoda;
  const staff = numberOf(childOf(direction, 'staff')) ?? 1;
  for (const type of types) readType(type, { part, bar, moment, staff, goesToCoda, hasSoundTempo });
}
