import type { DrawnStaff, DrawnSystem } from '../geometry.ts';
import type { StaffName } from '../strip.ts';
import type { TypeOutlines, TypeStyle } from './type-outlines.ts';
import { together, typeset, type Typeset } from './typeset.ts';

const nameType: TypeStyle = { family: 'sans', isItalic: false, weight: 500, size: 19 };
const rowHeight = 21;
/** From a baseline up to the middle of its small letters. */
const halfLetter = 5.5;
/** A name wider than this goes on in a row below. */
const mostWidth = 150;
const gapToMusic = 14;

/** A name in rows: what stands in brackets begins a row, and so does the word that would make a row too wide. */
async function rowsOfName(name: string, outlines: TypeOutlines): Promise<readonly string[]> {
  const rows: string[] = [];
  for (const word of name.split(/\s+/).filter((part) => part !== '')) {
    const last = rows.at(-1);
    const longer = last === undefined ? word : `${last} ${word}`;
    const isOwnRow = last === undefined || (word.startsWith('(') && !last.startsWith('('));
    const fits = !isOwnRow && (await outlines.outlined(longer, nameType)).width <= mostWidth;
    if (fits) rows[rows.length - 1] = longer;
    else rows.push(word);
  }
  return rows;
}

/** The room that names take beside the music, the gap included; none where there are none. **Units** pixels. */
export async function roomForNames(names: readonly string[], outlines: TypeOutlines): Promise<number> {
  let widest = 0;
  for (const name of names)
    for (const row of await rowsOfName(name, outlines))
      widest = Math.max(widest, (await outlines.outlined(row, nameType)).width);
  return widest === 0 ? 0 : Math.min(widest, mostWidth) + gapToMusic;
}

/** The middle of all staves of a part. */
function middleOfPart(staves: readonly DrawnStaff[]): number {
  const ys = staves.flatMap(({ lineYs }) => lineYs);
  return (Math.min(...ys) + Math.max(...ys)) / 2;
}

/** The names of a system's staves, each up to `right` and around the middle of its part. */
export async function staffNames(
  system: DrawnSystem,
  nameOf: (part: string) => StaffName | undefined,
  place: { readonly right: number; readonly isFirst: boolean; readonly colour: string },
  outlines: TypeOutlines,
): Promise<Typeset> {
  const parts = [...new Set(system.staves.map(({ part }) => part))];
  const set: Typeset[] = [];
  for (const part of parts) {
    const name = nameOf(part);
    const rows = await rowsOfName((place.isFirst ? name?.full : name?.short) ?? '', outlines);
    const middle = middleOfPart(system.staves.filter((staff) => staff.part === part));
    for (const [index, row] of rows.entries()) {
      const y = middle + halfLetter + (index - (rows.length - 1) / 2) * rowHeight;
      const at = { x: place.right - gapToMusic, y, share: 1, room: mostWidth } as const;
      set.push(await typeset(row, nameType, at, place.colour, outlines));
    }
  }
  return together(set);
}
