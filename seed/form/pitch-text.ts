import { midiOf, type Key, type Pitch } from '../../music/index.ts';

const pitchPattern = /^([A-G])(##|#|bb|b)?(-?\d)$/;
const alterOf: Readonly<Record<string, number>> = { '##': 2, '#': 1, b: -1, bb: -2 };

/** The pitch that a text such as `F#4` names, or null. */
export function pitchOfText(text: string): Pitch | null {
  const match = pitchPattern.exec(text);
  if (match === null) return null;
  const [, step, accidental = '', octave] = match;
  return { step: step as Pitch['step'], alter: alterOf[accidental] ?? 0, octave: Number(octave) };
}

const circle = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];

/** The key that a text such as `B minor` names, or null. */
export function keyOfText(text: string): Key | null {
  const match = /^([A-G])(#|b)? (major|minor)$/.exec(text);
  if (match === null) return null;
  const [, step = '', accidental = '', mode] = match;
  const fifths = circle.indexOf(step) - 1 + 7 * (alterOf[accidental] ?? 0) - (mode === 'minor' ? 3 : 0);
  return Math.abs(fifths) > 7 ? null : { fifths, mode: mode as 'major' | 'minor' };
}

/** The open strings that a text such as `D2 A2 D3 G3 B3 E4` names from the lowest, returned with the highest first, or null. */
export function tuningOfText(text: string): number[] | null {
  const pitches = text.split(/\s+/).map(pitchOfText);
  if (pitches.length < 4 || pitches.some((pitch) => pitch === null)) return null;
  return pitches.map((pitch) => midiOf(pitch as Pitch)).reverse();
}
