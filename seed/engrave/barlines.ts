import type { Piece, PieceBar } from '../form/piece.ts';
import { element, elementWith, type XmlElement } from './xml.ts';

/** The barline at a bar's left, or null where it is plain. */
export function leftBarline(piece: Piece, bar: PieceBar): XmlElement | null {
  const before = piece.bars[bar.ordinal - 2];
  const beginsEnding = bar.ending !== null && before?.ending !== bar.ending;
  if (!bar.startsRepeat && !beginsEnding) return null;
  return elementWith(
    'barline',
    { location: 'left' },
    bar.startsRepeat ? element('bar-style', 'heavy-light') : null,
    beginsEnding ? elementWith('ending', { number: bar.ending, type: 'start' }, `${bar.ending}.`) : null,
    bar.startsRepeat ? elementWith('repeat', { direction: 'forward' }) : null,
  );
}

/** The barline at a bar's right, or null where it is plain. */
export function rightBarline(piece: Piece, bar: PieceBar): XmlElement | null {
  const after = piece.bars[bar.ordinal];
  const endsEnding = bar.ending !== null && after?.ending !== bar.ending;
  const isLast = after === undefined;
  if (!bar.endsRepeat && !endsEnding && !isLast) return null;
  return elementWith(
    'barline',
    { location: 'right' },
    bar.endsRepeat || isLast ? element('bar-style', 'light-heavy') : null,
    endsEnding ? elementWith('ending', { number: bar.ending, type: bar.endsRepeat ? 'stop' : 'discontinue' }) : null,
    bar.endsRepeat ? elementWith('repeat', { direction: 'backward' }) : null,
  );
}
