import type { Bend } from '../../score/marks.ts';
import { childOf, numberOf, type XmlElement } from '../xml/tree.ts';

/** One stage of a bent string: how far, and whether it is bent before it is plucked or let back. **Source** MusicXML 4.0, bend: bend-alter in semitones, pre-bend, release. */
export function readBend(bend: XmlElement): Omit<Bend, 'note'> {
  const semitones = numberOf(childOf(bend, 'bend-alter')) ?? 0;
  if (childOf(bend, 'pre-bend') !== undefined) return { kind: 'preBend', semitones };
  return { kind: childOf(bend, 'release') === undefined ? 'bend' : 'release', semitones };
}
