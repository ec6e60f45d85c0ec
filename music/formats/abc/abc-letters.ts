import { fraction, type Fraction } from '../../basis/fraction.ts';
import type { Pitch } from '../../basis/pitch.ts';
import type { Key, Meter } from '../../score/score.ts';
import type { NoteValue, WrittenClef } from '../../score/written.ts';
import { altersOfSignature } from './abc-key.ts';

const signs: Readonly<Record<string, string>> = {
  '-2': '__',
  '-1.5': '_3/2',
  '-1': '_',
  '-0.5': '_/',
  '0': '=',
  '0.5': '^/',
  '1': '^',
  '1.5': '^3/2',
  '2': '^^',
};

/** Writes the pitches of one bar: an accidental wherever the key or anything said before in the bar could mislead, whatever a reader takes an accidental to reach. */
export class BarLetters {
  private readonly said = new Set<Pitch['step']>();
  private readonly alters: Partial<Record<Pitch['step'], number>>;

  constructor(key: Key) {
    this.alters = altersOfSignature(key.fifths);
  }

  /** A pitch as letters, `octaves` higher than it sounds. */
  of({ step, alter, octave }: Pitch, octaves: number): string {
    const differs = alter !== (this.alters[step] ?? 0);
    const sign = differs || this.said.has(step) ? (signs[String(alter)] ?? '') : '';
    if (differs) this.said.add(step);
    const height = octave + octaves;
    const letter = height >= 5 ? step.toLowerCase() : step;
    return `${sign}${letter}${"'".repeat(Math.max(0, height - 5))}${','.repeat(Math.max(0, 4 - height))}`;
  }
}

const majors = ['Cb', 'Gb', 'Db', 'Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#'];
const minors = ['Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#', 'G#', 'D#', 'A#'];

/** A key as K: says it. */
export const keyText = ({ fifths, mode }: Key): string =>
  mode === 'minor' ? `${minors[fifths + 7] ?? 'A'}m` : (majors[fifths + 7] ?? 'C');

/** A meter as M: says it. */
export const meterText = ({ beats, beatUnit }: Meter): string =>
  beats.length > 1 ? `(${beats.join('+')})/${beatUnit}` : `${beats.join('')}/${beatUnit}`;

/** A clef as V: says it. */
export function clefText(clef: WrittenClef): string {
  if (clef.sign === 'percussion') return 'perc';
  const name = clef.sign === 'G' ? 'treble' : clef.sign === 'F' ? 'bass' : clef.staffLine === 4 ? 'tenor' : 'alto';
  return `${name}${clef.octave === 0 ? '' : clef.octave > 0 ? '+8' : '-8'}`;
}

const wholes: Readonly<Record<NoteValue['type'], Fraction>> = {
  maxima: fraction(8),
  long: fraction(4),
  breve: fraction(2),
  whole: fraction(1),
  half: fraction(1, 2),
  quarter: fraction(1, 4),
  eighth: fraction(1, 8),
  '16th': fraction(1, 16),
  '32nd': fraction(1, 32),
  '64th': fraction(1, 64),
  '128th': fraction(1, 128),
  '256th': fraction(1, 256),
};

/** A length counted in eighths, as it stands after a letter. */
export function eighthsText({ numerator, denominator }: Fraction): string {
  if (denominator === 1) return numerator === 1 ? '' : String(numerator);
  return `${numerator === 1 ? '' : numerator}/${denominator === 2 ? '' : denominator}`;
}

/** A printed value without its tuplet, as it stands after a letter. */
export function valueText({ type, dots }: NoteValue): string {
  const { numerator, denominator } = wholes[type];
  const parts = 2 ** dots;
  return eighthsText(fraction(8 * numerator * (2 * parts - 1), denominator * parts));
}
