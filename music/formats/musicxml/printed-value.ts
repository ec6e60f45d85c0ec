import { childOf, childrenOf, childText, numberOf, type XmlElement } from '../xml/tree.ts';

/** How many quarter notes a printed value lasts, by its name in the format. **Source** MusicXML 4.0, note-type-value. */
export const quartersOfValue: Readonly<Record<string, number>> = {
  maxima: 32,
  long: 16,
  breve: 8,
  whole: 4,
  half: 2,
  quarter: 1,
  eighth: 0.5,
  '16th': 0.25,
  '32nd': 0.125,
  '64th': 0.0625,
  '128th': 0.03125,
  '256th': 0.015625,
  '512th': 0.0078125,
  '1024th': 0.00390625,
};

/** The length of the value that a `<note>` is printed as, dots and tuplet included, or null where it names none. **Units** quarter notes. */
export function printedQuarters(note: XmlElement): number | null {
  const quarters = quartersOfValue[childText(note, 'type')];
  if (quarters === undefined) return null;
  const dotted = quarters * (2 - 0.5 ** childrenOf(note, 'dot').length);
  const tuplet = childOf(note, 'time-modification');
  const actual = numberOf(childOf(tuplet, 'actual-notes')) ?? 1;
  const normal = numberOf(childOf(tuplet, 'normal-notes')) ?? 1;
  return actual > 0 && normal > 0 ? (dotted * normal) / actual : dotted;
}
