import type { SwingMark } from '../../score/marks.ts';
import { childOf, childrenOf, childText, elementsOf, numberOf, textOf, type XmlElement } from '../xml/tree.ts';
import { quartersOfValue } from './printed-value.ts';

/** Whether a number can be a tempo in quarter notes a minute. */
export const isTempo = (tempo: number): boolean => Number.isFinite(tempo) && tempo >= 1 && tempo <= 1000;

/** The tempo of a metronome mark in quarter notes a minute, or null where it equates note values. **Source** MusicXML 4.0, metronome. */
export function metronomeTempo(metronome: XmlElement): number | null {
  const quarters = quartersOfValue[childText(metronome, 'beat-unit')];
  const perMinute = /\d+([.,]\d+)?/.exec(childText(metronome, 'per-minute'))?.[0].replace(',', '.');
  if (quarters === undefined || perMinute === undefined) return null;
  const dots = childrenOf(metronome, 'beat-unit-dot').length;
  return Number(perMinute) * quarters * (2 - 0.5 ** dots);
}

/** How many times faster the music goes on where a metronome mark equates two note values, that before it and that after it; null where it equates none, or others. **Source** MusicXML 4.0, metronome: beat-unit twice; common practice, no source: the left value is that of the music before. */
export function tempoFactor(metronome: XmlElement): number | null {
  const values: number[] = [];
  let dots = 0;
  for (const part of elementsOf(metronome)) {
    if (part.name === 'beat-unit') {
      values.push(quartersOfValue[textOf(part)] ?? NaN);
      dots = 0;
    } else if (part.name === 'beat-unit-dot') {
      dots += 1;
      values.push((values.pop() ?? NaN) * ((2 - 0.5 ** dots) / (2 - 0.5 ** (dots - 1))));
    } else return null;
  }
  const [before, after] = values;
  const factor = values.length === 2 ? (after ?? NaN) / (before ?? NaN) : NaN;
  return Number.isFinite(factor) ? factor : null;
}

const swingUnit = (text: string): SwingMark['unit'] => (text === '16th' ? '16th' : 'eighth');

/** The swing of a `<swing>`, or null where it says none. **Source** MusicXML 4.0, swing. */
export function swingOf(swing: XmlElement): Omit<SwingMark, 'onsetTicks'> | null {
  const unit = swingUnit(childText(swing, 'swing-type'));
  if (childOf(swing, 'straight') !== undefined) return { long: 1, short: 1, unit, isAssumed: false };
  const [long, short] = [numberOf(childOf(swing, 'first')), numberOf(childOf(swing, 'second'))];
  const isRatio = long !== null && short !== null && long > 0 && short > 0;
  return isRatio ? { long, short, unit, isAssumed: false } : null;
}

/** The swing that a metronome mark draws: two equal notes, then the same two as a triplet's long and short; null for any other equation. **Source** MusicXML 4.0, metronome-note, metronome-tuplet. */
export function drawnSwing(metronome: XmlElement): Omit<SwingMark, 'onsetTicks'> | null {
  const notes = childrenOf(metronome, 'metronome-note');
  const [first, second, long, short] = notes.map((note) => childText(note, 'metronome-type'));
  const hasTriplet = notes.slice(2).some((note) => {
    const tuplet = childOf(note, 'metronome-tuplet');
    return childText(tuplet, 'actual-notes') === '3' && childText(tuplet, 'normal-notes') === '2';
  });
  if (notes.length !== 4 || !hasTriplet || first !== second || short !== first) return null;
  if (first !== 'eighth' && first !== '16th') return null;
  const isLong = quartersOfValue[long ?? ''] === 2 * (quartersOfValue[first] ?? 0);
  return isLong ? { long: 2, short: 1, unit: first, isAssumed: false } : null;
}
