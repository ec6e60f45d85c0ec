import { childOf, textOf, type XmlElement } from '../xml/tree.ts';
import type { RawBar } from './raw-part.ts';
import { addJump } from './read-direction.ts';

/** The passes that an ending's number names: `1, 2` or `1-3`. */
function passesOf(text: string): number[] {
  const passes = new Set<number>();
  for (const [, first, last] of text.matchAll(/(\d{1,3})(?:\s*-\s*(\d{1,3}))?/g)) {
    const end = Math.min(Number(last ?? first), Number(first) + 20);
    for (let pass = Number(first); pass <= end; pass += 1) passes.add(pass);
  }
  return [...passes].sort((a, b) => a - b);
}

function readRepeat(repeat: XmlElement, bar: RawBar): void {
  if (repeat.attributes['direction'] === 'forward') bar.startsRepeat = true;
  if (repeat.attributes['direction'] !== 'backward') return;
  bar.repeatsAfterJump ||= repeat.attributes['after-jump'] === 'yes';
  const times = Number(repeat.attributes['times'] ?? 2);
  bar.repeatTimes = Number.isInteger(times) && times >= 2 && times <= 64 ? times : 2;
}

function readEnding(ending: XmlElement, bar: RawBar): void {
  const type = ending.attributes['type'];
  if (type === 'start') bar.endingStart = passesOf((ending.attributes['number'] ?? '').trim() || textOf(ending));
  if (type === 'stop' || type === 'discontinue') bar.stopsEnding = true;
}

/** Reads a `<barline>`: repeats, endings and signs on it. */
export function readBarline(barline: XmlElement, bar: RawBar): void {
  const repeat = childOf(barline, 'repeat');
  const ending = childOf(barline, 'ending');
  if (repeat !== undefined) readRepeat(repeat, bar);
  if (ending !== undefined) readEnding(ending, bar);
  if (childOf(barline, 'segno') !== undefined) addJump(bar, 'segno');
  if (childOf(barline, 'coda') !== undefined) addJump(bar, 'coda');
}
