import type { Jump } from '../../score/score.ts';
import { childOf, textOf, type XmlElement } from '../xml/tree.ts';
import type { RawBar } from './raw-part.ts';
import { addJump } from './read-direction.ts';

/** The passes that an ending's number names: `1, 2`, `1-3` or `1.–3.`. */
function passesOf(text: string): number[] {
  const passes = new Set<number>();
  for (const [, first, last] of text.matchAll(/(\d{1,3})(?:\.?\s*[-–—]\s*(\d{1,3}))?/g)) {
    const end = Math.min(Number(last ?? first), Number(first) + 20);
    for (let pass = Number(first); pass <= end; pass += 1) passes.add(pass);
  }
  return [...passes].sort((a, b) => a - b);
}

/** The passes that an ending's number names, or its text where that names them and more. */
function passesOfEnding(ending: XmlElement): number[] {
  const numbered = passesOf(ending.attributes['number'] ?? '');
  const printed = passesOf(textOf(ending));
  return numbered.every((pass) => printed.includes(pass)) ? printed : numbered;
}

/** What a bar begins with that stands on its left side, or on the right side of the bar before. */
export interface BarOpening {
  startsRepeat: boolean;
  endingStart: readonly number[];
  readonly jumps: Jump[];
}

/** A bar on whose left side nothing stands yet. */
export const plainOpening = (): BarOpening => ({ startsRepeat: false, endingStart: [], jumps: [] });

/** The bars on both sides of a barline; undefined where there is none. */
export interface BarlineSides {
  readonly ending: RawBar | undefined;
  readonly beginning: BarOpening;
}

function readRepeat(repeat: XmlElement, { ending, beginning }: BarlineSides): void {
  if (repeat.attributes['direction'] === 'forward') beginning.startsRepeat = true;
  if (repeat.attributes['direction'] !== 'backward' || ending === undefined) return;
  ending.repeatsAfterJump ||= repeat.attributes['after-jump'] === 'yes';
  const times = Number(repeat.attributes['times'] ?? 2);
  ending.repeatTimes = Number.isInteger(times) && times >= 1 && times <= 64 ? times : 2;
}

function readEnding(element: XmlElement, { ending, beginning }: BarlineSides): void {
  const type = element.attributes['type'];
  if (type === 'start') beginning.endingStart = passesOfEnding(element);
  if ((type === 'stop' || type === 'discontinue') && ending !== undefined) ending.stopsEnding = true;
}

/** Reads a `<barline>`: repeats, endings and signs on it. What ends belongs to the bar before it, what begins to the bar after it. */
export function readBarline(barline: XmlElement, bar: RawBar, sides: BarlineSides): void {
  const repeat = childOf(barline, 'repeat');
  const ending = childOf(barline, 'ending');
  if (repeat !== undefined) readRepeat(repeat, sides);
  if (ending !== undefined) readEnding(ending, sides);
  if (childOf(barline, 'segno') !== undefined) addJump(sides.beginning, 'segno');
  if (childOf(barline, 'coda') !== undefined) addJump(bar, 'coda');
}
