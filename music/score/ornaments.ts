import { midiOf, type Pitch } from '../basis/pitch.ts';

/** Ornaments that play a note and its neighbours. A mordent has the lower neighbour, an inverted one the upper. */
export type NeighbourOrnamentKind =
  'trill' | 'mordent' | 'invertedMordent' | 'turn' | 'invertedTurn' | 'delayedTurn' | 'delayedInvertedTurn';

/** On which side of a note a neighbour lies. */
export type NeighbourSide = 'above' | 'below';

/** An ornament with neighbours. An accidental that is told for a neighbour counts from its plain letter; without one the key says. **Units** semitones. */
export interface NeighbourOrnament {
  readonly kind: NeighbourOrnamentKind;
  readonly alterAbove?: number;
  readonly alterBelow?: number;
}

/** What is printed over a note and played in its time: neighbours, or strokes (1 to 4) that repeat it, each halving its value. */
export type Ornament = NeighbourOrnament | { readonly kind: 'tremolo'; readonly strokes: number };

const letters = ['C', 'D', 'E', 'F', 'G', 'A', 'B'] as const;

/** The plain letter above or below a pitch. */
export function neighbourLetter({ step, octave }: Pitch, side: NeighbourSide): Pitch {
  const place = letters.indexOf(step) + (side === 'above' ? 1 : -1);
  const octaves = Math.floor(place / letters.length);
  return { step: letters[place - octaves * letters.length] as Pitch['step'], alter: 0, octave: octave + octaves };
}

const movedAlter = (alter: number, side: NeighbourSide, from: Pitch, to: Pitch): number =>
  alter + (midiOf(neighbourLetter(from, side)) - midiOf(from)) - (midiOf(neighbourLetter(to, side)) - midiOf(to));

/** An ornament of a note that is moved to another pitch: its accidentals tell the same distances there. */
export function movedOrnament(ornament: Ornament, from: Pitch, to: Pitch): Ornament {
  if (ornament.kind === 'tremolo') return ornament;
  const { kind, alterAbove, alterBelow } = ornament;
  return {
    kind,
    ...(alterAbove === undefined ? {} : { alterAbove: movedAlter(alterAbove, 'above', from, to) }),
    ...(alterBelow === undefined ? {} : { alterBelow: movedAlter(alterBelow, 'below', from, to) }),
  };
}
