import type { NeighbourOrnament, NeighbourOrnamentKind, NeighbourSide, Ornament } from '../../score/ornaments.ts';
import { elementsOf, numberOf, textOf, type XmlElement } from '../xml/tree.ts';

const kinds: ReadonlyMap<string, NeighbourOrnamentKind> = new Map(
  Object.entries({
    'trill-mark': 'trill',
    mordent: 'mordent',
    'inverted-mordent': 'invertedMordent',
    turn: 'turn',
    'inverted-turn': 'invertedTurn',
    'delayed-turn': 'delayedTurn',
    'delayed-inverted-turn': 'delayedInvertedTurn',
  }),
);

/** **Source** MusicXML 4.0, accidental-value, from memory. */
const alterations: ReadonlyMap<string, number> = new Map(
  Object.entries({
    sharp: 1,
    natural: 0,
    flat: -1,
    'double-sharp': 2,
    'sharp-sharp': 2,
    'flat-flat': -2,
    'triple-sharp': 3,
    'triple-flat': -3,
    'natural-sharp': 1,
    'natural-flat': -1,
  }),
);

const mostStrokes = 4;

/** Whether a tremolo repeats its own note by a number of strokes; the others are between two notes or without a measure. **Source** MusicXML 4.0, tremolo. */
export const isMeasuredTremolo = ({ attributes }: XmlElement): boolean => (attributes['type'] ?? 'single') === 'single';

/** Whether an accidental among ornaments tells whole semitones, as those that are read do. */
export const isReadAccidental = (mark: XmlElement): boolean => alterations.has(textOf(mark));

/** On which side an accidental is told: as it is placed, else on the one that its ornament goes to first. Common practice, no source. */
function sideOf(mark: XmlElement, { kind }: NeighbourOrnament): NeighbourSide {
  if (kind === 'mordent') return 'below';
  if (kind === 'trill' || kind === 'invertedMordent') return 'above';
  if (mark.attributes['placement'] === 'below') return 'below';
  return 'above';
}

function withAccidental(ornament: Ornament, mark: XmlElement): Ornament {
  const alter = alterations.get(textOf(mark));
  if (ornament.kind === 'tremolo' || alter === undefined) return ornament;
  return sideOf(mark, ornament) === 'above' ? { ...ornament, alterAbove: alter } : { ...ornament, alterBelow: alter };
}

/** Adds the ornaments within an `<ornaments>` element; an accidental is for the ornament before it. */
export function readOrnaments(parent: XmlElement, ornaments: Ornament[]): void {
  for (const sign of elementsOf(parent)) {
    const kind = kinds.get(sign.name);
    const last = ornaments.at(-1);
    const strokes = sign.name === 'tremolo' && isMeasuredTremolo(sign) ? (numberOf(sign) ?? 0) : 0;
    if (kind !== undefined) ornaments.push({ kind });
    else if (Number.isInteger(strokes) && strokes >= 1)
      ornaments.push({ kind: 'tremolo', strokes: Math.min(mostStrokes, strokes) });
    else if (sign.name === 'accidental-mark' && last !== undefined)
      ornaments[ornaments.length - 1] = withAccidental(last, sign);
  }
}
