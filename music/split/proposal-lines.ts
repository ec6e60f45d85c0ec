import { generateKeyBetween } from 'fractional-indexing';
import type { LineId } from '../basis/ids.ts';
import type { Line, LineRole } from '../operations/split.ts';
import { freeFace } from './faces.ts';

/** A line that the proposal needs: one that exists, or the role of one to be made. */
export type NeededLine =
  { readonly kind: 'existing'; readonly line: Line } | { readonly kind: 'new'; readonly role: LineRole };

const byOrderKey = (a: Line, b: Line): number => (a.orderKey < b.orderKey ? -1 : a.orderKey > b.orderKey ? 1 : 0);

function keyAfter(previous: string | null, all: readonly Line[]): string {
  const next = [...all].sort(byOrderKey).find((line) => previous === null || line.orderKey > previous);
  return generateKeyBetween(previous, next?.orderKey ?? null);
}

/** The needed lines, from high to low, those to be made with a face, an id and an order key that puts each below the one before it. */
export function madeLines(
  needed: readonly NeededLine[],
  existing: readonly Line[],
  newLineId: () => LineId,
): readonly Line[] {
  const all = [...existing];
  let previous: string | null = null;
  return needed.map((need) => {
    if (need.kind === 'existing') {
      previous = need.line.orderKey;
      return need.line;
    }
    const taken = all.filter((line) => !line.isRetired);
    const line: Line = {
      ...freeFace(need.role, taken),
      id: newLineId(),
      orderKey: keyAfter(previous, all),
      isRetired: false,
    };
    all.push(line);
    previous = line.orderKey;
    return line;
  });
}

/** Those that exist and those that were made, once each, from high to low. */
export function allLines(existing: readonly Line[], made: readonly Line[]): readonly Line[] {
  const ids = new Set(existing.map((line) => line.id));
  return [...existing, ...made.filter((line) => !ids.has(line.id))].sort(byOrderKey);
}
