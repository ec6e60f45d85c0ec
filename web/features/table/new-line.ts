import { generateKeyBetween } from 'fractional-indexing';
import { activeLines, lineId, type Dye, type Line, type LineRole, type Split } from '../../../music/index.ts';

interface Part {
  readonly role: LineRole;
  readonly name: string;
  readonly letter: string;
  readonly dye: Dye;
}

/** What each role is called at first, and the dye that belongs to it. */
export const roleParts: readonly Part[] = [
  { role: 'melody', name: 'Melody', letter: 'M', dye: 'madder' },
  { role: 'counter', name: 'Counter-melody', letter: 'C', dye: 'weld' },
  { role: 'middle', name: 'Middle voice', letter: 'V', dye: 'verdigris' },
  { role: 'bass', name: 'Bass', letter: 'B', dye: 'indigo' },
  { role: 'percussion', name: 'Percussion', letter: 'P', dye: 'walnut' },
  { role: 'accompaniment', name: 'Accompaniment', letter: 'A', dye: 'logwood' },
];

/** A line that the split does not have yet: the first role that is free, at the end of the list. */
export function newLine(split: Pick<Split, 'lines'>, newId: () => string): Line {
  const lines = activeLines(split);
  const isFree = (part: Part): boolean => !lines.some((line) => line.dye === part.dye || line.role === part.role);
  const part = roleParts.find(isFree) ?? {
    role: 'counter',
    name: 'Counter-melody',
    letter: 'C',
    dye: leastUsedDye(lines),
  };
  const orderKey = generateKeyBetween(lines.at(-1)?.orderKey ?? null, null);
  return {
    id: lineId(newId()),
    ...part,
    name: freeName(lines, part.name),
    letter: freeLetter(lines, part.letter),
    orderKey,
    isRetired: false,
  };
}

function leastUsedDye(lines: readonly Line[]): Dye {
  const uses = (dye: Dye): number => lines.filter((line) => line.dye === dye).length;
  return roleParts.map((part) => part.dye).reduce((best, dye) => (uses(dye) < uses(best) ? dye : best));
}

function freeName(lines: readonly Line[], name: string): string {
  if (!lines.some((line) => line.name === name)) return name;
  const number =
    [2, 3, 4, 5, 6, 7, 8, 9].find((candidate) => !lines.some((line) => line.name === `${name} ${candidate}`)) ?? 10;
  return `${name} ${number}`;
}

function freeLetter(lines: readonly Line[], letter: string): string {
  if (!lines.some((line) => line.letter === letter)) return letter;
  return (
    [2, 3, 4, 5, 6, 7, 8, 9]
      .map((number) => `${letter}${number}`)
      .find((name) => !lines.some((line) => line.letter === name)) ?? letter
  );
}
