import type { Piece } from '../form/piece.ts';
import { measureElement } from './measure.ts';
import { element, elementWith, writeXml } from './xml.ts';

const prologue =
  '<?xml version="1.0" encoding="UTF-8" standalone="no"?>\n' +
  '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">\n';

/** The piece as a MusicXML 4.0 document: one guitar part with a notation staff (treble clef with an 8 below) and a tablature staff. */
export function engravePiece(piece: Piece): string {
  const part = elementWith(
    'part',
    { id: 'P1' },
    piece.bars.map((bar) => measureElement(piece, bar)),
  );
  const scorePart = elementWith(
    'score-part',
    { id: 'P1' },
    element('part-name', 'Guitar'),
    elementWith('score-instrument', { id: 'P1-I1' }, element('instrument-name', 'Steel-string guitar')),
    elementWith('midi-instrument', { id: 'P1-I1' }, element('midi-program', 26)),
  );
  const document = elementWith(
    'score-partwise',
    { version: '4.0' },
    element('work', element('work-title', piece.title)),
    element(
      'identification',
      elementWith('creator', { type: 'composer' }, piece.composer),
      element('encoding', element('software', 'Heddle demo')),
    ),
    element('part-list', scorePart),
    part,
  );
  return prologue + writeXml(document);
}
