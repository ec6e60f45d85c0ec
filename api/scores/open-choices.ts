import type { PartChoice } from '../../contract/index.ts';

/** A part with frets, and whether it has a capo to choose about. */
interface OpenPart {
  readonly part: string;
  readonly capo: unknown;
}

/** Of what is chosen for parts what a reading leaves open, in the order of the score: a part that it has not, and the capo of one without, cannot be chosen, nor would a page have where to take it back. */
export function openChoices(chosen: readonly PartChoice[], sounding: readonly OpenPart[]): PartChoice[] {
  return sounding.flatMap(({ part, capo }) => {
    const own = chosen.find((one) => one.part === part);
    if (own === undefined) return [];
    const open = { ...own, capo: capo === null ? null : own.capo };
    return open.octave === null && open.capo === null ? [] : [open];
  });
}
