import { nameOf, type Bar, type HitKind, type Line, type Score, type SoundingNote } from '../../music/index.ts';

/** The beat of a moment within its bar, from 1, counted in the meter's unit; a pickup counts towards its bar line. */
export function beatOf(score: Pick<Score, 'ticksPerQuarter'>, bar: Bar, onsetTicks: number): number {
  const ticksPerBeat = (score.ticksPerQuarter * 4) / bar.meter.beatUnit;
  const meterTicks = ticksPerBeat * bar.meter.beats.reduce((total, beats) => total + beats, 0);
  const missing = bar.isImplicit && bar.ordinal === 1 ? Math.max(0, meterTicks - bar.lengthTicks) : 0;
  return (onsetTicks - bar.onsetTicks + missing) / ticksPerBeat + 1;
}

const fractions: readonly (readonly [number, string])[] = [
  [0.25, '¼'],
  [1 / 3, '⅓'],
  [0.5, '½'],
  [2 / 3, '⅔'],
  [0.75, '¾'],
];

/** A beat as people read it: `2`, `3½`. */
export function beatWords(beat: number): string {
  const whole = Math.floor(beat + 1e-6);
  const rest = beat - whole;
  const named = fractions.find(([value]) => Math.abs(value - rest) < 0.02);
  if (named !== undefined) return `${whole}${named[1]}`;
  return rest < 0.02 ? String(whole) : beat.toFixed(2);
}

const hitWords: Readonly<Record<HitKind, string>> = {
  lowBody: 'low tap',
  highBody: 'high tap',
  stringSlap: 'slap on the strings',
  deadNote: 'dead note',
};

/** What a note sounds like in words: `E4`, `low tap`. */
export const soundWords = (note: Pick<SoundingNote, 'sound'>): string =>
  note.sound.kind === 'hit'
    ? hitWords[note.sound.hit]
    : nameOf(note.sound.sounding) + String(note.sound.sounding.octave);

/** The bar that a bar is called by: its printed number, else its place. */
export const barWords = (bar: Pick<Bar, 'label' | 'ordinal'>): string =>
  bar.label === '' ? String(bar.ordinal) : bar.label;

/** One note in words for those who listen: `bar 3, beat 2, E4, melody`. */
export function noteWords(score: Score, note: SoundingNote, lines: readonly Line[]): string {
  const bar = score.bars.find((candidate) => candidate.id === note.bar);
  const place =
    bar === undefined
      ? ''
      : `${bar.isImplicit && bar.ordinal === 1 ? 'the pickup' : `bar ${barWords(bar)}`}, beat ${beatWords(beatOf(score, bar, note.onsetTicks))}, `;
  const names = lines.length === 0 ? 'on no line' : lines.map((line) => line.name.toLowerCase()).join(' and ');
  return `${place}${soundWords(note)}, ${names}`;
}
