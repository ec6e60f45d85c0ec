import { mostLines } from './texture.ts';
import type { SeparateOptions, VoiceNote } from './voice-note.ts';

const isWhole = (value: number, least: number, most: number): boolean =>
  Number.isSafeInteger(value) && value >= least && value <= most;

function refuse(what: string, value: number, wanted: string): never {
  throw new RangeError(`${what} is ${value}; it must be ${wanted}.`);
}

function checkNotes(notes: readonly VoiceNote[]): void {
  notes.forEach(({ onsetTicks, lengthTicks, midi }, index) => {
    if (!Number.isFinite(onsetTicks)) refuse(`The onset of note ${index}`, onsetTicks, 'a finite number');
    if (!(lengthTicks >= 0 && Number.isFinite(lengthTicks)))
      refuse(`The length of note ${index}`, lengthTicks, 'a finite number, 0 or more');
    if (!isWhole(midi, 0, 127)) refuse(`The pitch of note ${index}`, midi, 'a whole number from 0 to 127');
  });
}

/**
 * Refuses what no split can answer; what contradicts itself as music does not belong there.
 * **Errors** throws a RangeError that says what is wrong; notes are counted from 0, as pins count them.
 */
export function checkRequest(notes: readonly VoiceNote[], { ticksPerQuarter, lineCount, pins }: SeparateOptions): void {
  if (!(ticksPerQuarter > 0 && Number.isFinite(ticksPerQuarter)))
    refuse('ticksPerQuarter', ticksPerQuarter, 'a finite number above 0');
  if (lineCount !== undefined && !isWhole(lineCount, 1, mostLines))
    refuse('lineCount', lineCount, `a whole number from 1 to ${mostLines}`);
  for (const [index, label] of pins ?? [])
    if (!isWhole(label, 0, Number.MAX_SAFE_INTEGER))
      refuse(`The pin of note ${index}`, label, 'a whole number, 0 or more');
  checkNotes(notes);
}
