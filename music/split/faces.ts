import type { Dye, LineFace, LineRole } from '../operations/split.ts';

interface RoleFace {
  readonly name: string;
  readonly dye: Dye;
  readonly letters: readonly string[];
}

const faceOfRole: Readonly<Record<LineRole, RoleFace>> = {
  melody: { name: 'Melody', dye: 'madder', letters: ['M', 'N', 'O'] },
  counter: { name: 'Counter-melody', dye: 'weld', letters: ['C', 'D', 'E'] },
  middle: { name: 'Middle voice', dye: 'verdigris', letters: ['V', 'W', 'U'] },
  bass: { name: 'Bass', dye: 'indigo', letters: ['B', 'L', 'K'] },
  percussion: { name: 'Percussion', dye: 'walnut', letters: ['P', 'X', 'Q'] },
  accompaniment: { name: 'Accompaniment', dye: 'logwood', letters: ['A', 'G', 'H'] },
};

const dyesByPreference: readonly Dye[] = ['madder', 'indigo', 'verdigris', 'weld', 'logwood', 'walnut'];
const alphabet = Array.from({ length: 26 }, (_, index) => String.fromCharCode(65 + index));

/** A face for a line of this role that no taken face is mistaken for: another letter always, another dye while one is free. */
export function freeFace(role: LineRole, taken: readonly LineFace[]): LineFace {
  const { name, dye, letters } = faceOfRole[role];
  const letter = [...letters, ...alphabet].find((candidate) => taken.every((face) => face.letter !== candidate)) ?? '+';
  const freeDye = [dye, ...dyesByPreference].find((candidate) => taken.every((face) => face.dye !== candidate)) ?? dye;
  const sameName = taken.filter((face) => face.name === name || face.name.startsWith(`${name} `)).length;
  return { name: sameName === 0 ? name : `${name} ${sameName + 1}`, role, dye: freeDye, letter };
}
