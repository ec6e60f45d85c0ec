import { ticksPerQuarter, type Piece, type PieceBar, type PieceNote } from '../form/piece.ts';
import { chordTones } from './chord-tones.ts';

/** A place where a line goes against common practice. */
export interface Blemish {
  readonly kind:
    'unprepared-dissonance' | 'bass-off-chord' | 'semitone-clash' | 'parallel-octaves' | 'parallel-fifths' | 'crossing';
  readonly bar: string;
  readonly detail: string;
}

/** A pitched note with its MIDI number at hand. */
interface Sung {
  readonly note: PieceNote;
  readonly midi: number;
}

/** The pitched notes of the line with a role, in order. */
export function sungNotes(piece: Piece, role: string): Sung[] {
  const letter = piece.lines.find((line) => line.role === role)?.letter;
  return piece.notes.flatMap((note) =>
    note.letter === letter && note.sound.kind === 'pitched' ? [{ note, midi: note.sound.midi }] : [],
  );
}

const barAt = (piece: Piece, ticks: number): PieceBar | undefined =>
  piece.bars.findLast((bar) => bar.onsetTicks <= ticks);
const labelAt = (piece: Piece, ticks: number): string => barAt(piece, ticks)?.label ?? '';
const soundingAt = (line: readonly Sung[], ticks: number): Sung | undefined =>
  line.findLast(({ note }) => note.onsetTicks <= ticks && ticks < note.onsetTicks + note.lengthTicks);

/** The first beat, and the middle one of a bar of four. */
function isStrong(piece: Piece, ticks: number): boolean {
  const bar = barAt(piece, ticks);
  if (bar === undefined || bar.isPickup) return false;
  const withinTicks = ticks - bar.onsetTicks;
  return withinTicks === 0 || (bar.meter.beats[0] === 4 && withinTicks === 2 * ticksPerQuarter);
}

const tonesAt = (piece: Piece, ticks: number): ReturnType<typeof chordTones> =>
  chordTones(piece.chords.findLast((chord) => chord.onsetTicks <= ticks)?.name ?? '');

const isStep = (from: Sung | undefined, to: Sung | undefined): boolean =>
  from !== undefined && to !== undefined && Math.abs(from.midi - to.midi) <= 2;

/** A strong melody note is of its chord, or leaves by step (an appoggiatura or a passing note). */
function melodyBlemishes(piece: Piece): Blemish[] {
  const melody = sungNotes(piece, 'melody');
  return melody.flatMap((sung, index): Blemish[] => {
    const ticks = sung.note.onsetTicks;
    const tones = tonesAt(piece, ticks)?.tones ?? [];
    if (!isStrong(piece, ticks) || tones.includes(sung.midi % 12) || isStep(sung, melody[index + 1])) return [];
    return [{ kind: 'unprepared-dissonance', bar: labelAt(piece, ticks), detail: `melody ${sung.midi}` }];
  });
}

/** A strong bass note is of its chord, and the first under a chord is the chord's own bass. */
function bassBlemishes(piece: Piece): Blemish[] {
  const bass = sungNotes(piece, 'bass');
  return bass.flatMap(({ note, midi }): Blemish[] => {
    const chord = tonesAt(piece, note.onsetTicks);
    const isFirst = piece.chords.some((planned) => planned.onsetTicks === note.onsetTicks);
    const fits = chord !== null && (isFirst ? chord.bass === midi % 12 : chord.tones.includes(midi % 12));
    if (fits || !(isFirst || isStrong(piece, note.onsetTicks))) return [];
    return [{ kind: 'bass-off-chord', bar: labelAt(piece, note.onsetTicks), detail: `bass ${midi}` }];
  });
}

/** Semitones and minor ninths that begin together or on a strong beat. */
function clashBlemishes(piece: Piece): Blemish[] {
  const lines = ['melody', 'middle', 'bass'].map((role) => sungNotes(piece, role));
  const onsets = [...new Set(piece.notes.map((note) => note.onsetTicks))];
  return onsets.flatMap((ticks) => {
    const sounding = lines.map((line) => soundingAt(line, ticks)).filter((sung) => sung !== undefined);
    return sounding.flatMap((upper, index) =>
      sounding.slice(index + 1).flatMap((lower): Blemish[] => {
        const distance = upper.midi - lower.midi;
        const begin = upper.note.onsetTicks === ticks && lower.note.onsetTicks === ticks;
        if (distance % 12 !== 1 || !(begin || isStrong(piece, ticks))) return [];
        return [{ kind: 'semitone-clash', bar: labelAt(piece, ticks), detail: `${upper.midi} over ${lower.midi}` }];
      }),
    );
  });
}

const parallels: readonly (readonly [number, Blemish['kind']])[] = [
  [0, 'parallel-octaves'],
  [7, 'parallel-fifths'],
];

/** Melody and bass that move together from one octave, or fifth, to another. */
function parallelBlemishes(piece: Piece): Blemish[] {
  const melody = sungNotes(piece, 'melody');
  const bass = sungNotes(piece, 'bass');
  return bass.flatMap((now, index): Blemish[] => {
    const before = bass[index - 1];
    const ticks = now.note.onsetTicks;
    const above = soundingAt(melody, ticks);
    const aboveBefore = before && soundingAt(melody, before.note.onsetTicks);
    if (before === undefined || above === undefined || aboveBefore === undefined) return [];
    if (above.note.onsetTicks !== ticks || before.midi === now.midi || aboveBefore.midi === above.midi) return [];
    const found = parallels.find(
      ([size]) => (above.midi - now.midi) % 12 === size && (aboveBefore.midi - before.midi) % 12 === size,
    );
    return found === undefined
      ? []
      : [{ kind: found[1], bar: labelAt(piece, ticks), detail: `${before.midi} to ${now.midi}` }];
  });
}

/** Two lines that strike together twice running, an octave or a fifth apart both times, and have moved. */
function strictParallels(piece: Piece, upperRole: string, lowerRole: string): Blemish[] {
  const upper = sungNotes(piece, upperRole);
  const lower = sungNotes(piece, lowerRole);
  return upper.slice(1).flatMap((above, index): Blemish[] => {
    const aboveBefore = upper[index];
    const place = lower.findIndex(({ note }) => note.onsetTicks === above.note.onsetTicks);
    const below = lower[place];
    const belowBefore = lower[place - 1];
    if (below === undefined || belowBefore === undefined || aboveBefore === undefined) return [];
    if (belowBefore.note.onsetTicks !== aboveBefore.note.onsetTicks || belowBefore.midi === below.midi) return [];
    const sizes = [above.midi - below.midi, aboveBefore.midi - belowBefore.midi].map((size) => size % 12);
    const found = parallels.find(([size]) => sizes.every((other) => other === size));
    return found === undefined
      ? []
      : [{ kind: found[1], bar: labelAt(piece, above.note.onsetTicks), detail: `${upperRole} and ${lowerRole}` }];
  });
}

/** Melody above middle voice above bass at every onset; a shared note is no crossing. */
function crossingBlemishes(piece: Piece): Blemish[] {
  const lines = ['melody', 'middle', 'bass'].map((role) => sungNotes(piece, role));
  return [...new Set(piece.notes.map((note) => note.onsetTicks))].flatMap((ticks) => {
    const sounding = lines.map((line) => soundingAt(line, ticks)).filter((sung) => sung !== undefined);
    const isCrossed = sounding.some((sung, index) => (sounding[index + 1]?.midi ?? -1) > sung.midi);
    const detail = sounding.map(({ midi }) => midi).join(' ');
    return isCrossed ? [{ kind: 'crossing', bar: labelAt(piece, ticks), detail }] : [];
  });
}

/** Everything in a piece that common practice (no source) would mark in an exercise. */
export const blemishesOf = (piece: Piece): Blemish[] => [
  ...melodyBlemishes(piece),
  ...bassBlemishes(piece),
  ...clashBlemishes(piece),
  ...parallelBlemishes(piece),
  ...strictParallels(piece, 'melody', 'middle'),
  ...strictParallels(piece, 'middle', 'bass'),
  ...crossingBlemishes(piece),
];
