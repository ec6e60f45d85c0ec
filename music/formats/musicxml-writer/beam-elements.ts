import { element, type XmlElement } from '../xml/tree.ts';
import type { Beams } from './beaming.ts';

/** The `<beam>` elements of one note, the eighth's beam first. **Source** MusicXML 4.0, beam. */
export const beamElements = (beams: Beams): XmlElement[] =>
  beams.map((beam, index) => element('beam', { number: String(index + 1) }, [beam]));
