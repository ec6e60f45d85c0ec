import type { LineId } from '../../music/index.ts';
import type { PieceLine } from '../form/piece.ts';

/** The four lines of *The Weir at Low Water* by what they do. */
export interface DemoLines {
  readonly melody: LineId;
  readonly middle: LineId;
  readonly bass: LineId;
  readonly taps: LineId;
}

/** The ids of the four lines, found by their roles. */
export function demoLines(lines: readonly (Pick<PieceLine, 'role'> & { readonly id: LineId })[]): DemoLines {
  const withRole = (role: PieceLine['role']): LineId => {
    const line = lines.find((candidate) => candidate.role === role);
    if (line === undefined) throw new Error(`The demo's split has no line with the role ${role}`);
    return line.id;
  };
  return {
    melody: withRole('melody'),
    middle: withRole('middle'),
    bass: withRole('bass'),
    taps: withRole('percussion'),
  };
}
