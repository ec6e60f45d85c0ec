import type { Instrument } from '../../music/index.ts';

/** A level against what it was, in words. **Units** decibels. */
export const levelWords = (levelDb: number): string =>
  levelDb === 0 ? 'as it is' : `${levelDb > 0 ? '+' : '−'}${Math.abs(levelDb)} dB`;

/** A place between left (−1) and right (1), in words. */
export function placeWords(place: number): string {
  if (Math.abs(place) < 0.05) return 'in the middle';
  const side = place < 0 ? 'left' : 'right';
  return Math.abs(place) < 0.5 ? `a little ${side}` : Math.abs(place) < 0.95 ? `to the ${side}` : `far ${side}`;
}

/** A tone between dark (−1) and bright (1), in words. */
export function toneWords(tone: number): string {
  if (Math.abs(tone) < 0.05) return 'as it is';
  return `${Math.abs(tone) < 0.5 ? 'a little ' : ''}${tone < 0 ? 'darker' : 'brighter'}`;
}

/** What a line is played with, in words. */
export const instrumentWords: Readonly<Record<Instrument, string>> = {
  steel: 'steel strings',
  nylon: 'nylon strings',
  bass: 'bass guitar',
  hum: 'hummed',
};
