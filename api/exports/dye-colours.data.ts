import type { Dye } from '../../music/index.ts';

/** The dyes on paper, as documents need them. **Source** web/ui/tokens.css; a test holds the two together. */
export const dyeColours: Readonly<Record<Dye, string>> = {
  madder: '#b4444d',
  weld: '#b28405',
  verdigris: '#229b9a',
  indigo: '#003764',
  walnut: '#512f02',
  logwood: '#9349b2',
};
