import type { Dye } from '../../music/index.ts';

/** The CSS values of a dye: its colour, the tone for text on paper, and its stitch. */
export interface DyePaint {
  readonly colour: string;
  readonly text: string;
  readonly stitch: string;
}

const paintOf = (dye: Dye): DyePaint => ({
  colour: `var(--${dye})`,
  text: `var(--${dye}-text)`,
  stitch: `var(--${dye}-stitch)`,
});

/** How each dye is painted; the values stand in tokens.css. */
export const dyePaint: Readonly<Record<Dye, DyePaint>> = {
  madder: paintOf('madder'),
  weld: paintOf('weld'),
  verdigris: paintOf('verdigris'),
  indigo: paintOf('indigo'),
  walnut: paintOf('walnut'),
  logwood: paintOf('logwood'),
};
