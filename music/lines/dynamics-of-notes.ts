import type { DynamicMark, SoundingNote } from '../score/score.ts';

const isFor = ({ parts, staves }: DynamicMark, notes: readonly SoundingNote[]): boolean =>
  parts === undefined ||
  notes.some(({ voices }) =>
    voices.some(({ part, staff }) => parts.includes(part) && (staves?.includes(staff) ?? true)),
  );

const placeOf = (notes: readonly SoundingNote[]): string =>
  [...new Set(notes.flatMap(({ voices }) => voices.map(({ part, staff }) => `${part} ${staff}`)))].sort().join(', ');

/** Tells of notes that sound together the dynamics of the parts and staves that they stand in; the same list for all that stand in the same. */
export function dynamicsByPlace<Mark extends DynamicMark>(
  marks: readonly Mark[],
): (notes: readonly SoundingNote[]) => readonly Mark[] {
  if (marks.every(({ parts }) => parts === undefined)) return () => marks;
  const found = new Map<string, readonly Mark[]>();
  return (notes) => {
    const place = placeOf(notes);
    const own = found.get(place) ?? marks.filter((mark) => isFor(mark, notes));
    found.set(place, own);
    return own;
  };
}
