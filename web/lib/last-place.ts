import { z } from 'zod';

const placeSchema = z.object({ path: z.string().startsWith('/'), title: z.string() });

/** Where somebody was last, so that the shelf can open it again. */
export type LastPlace = z.output<typeof placeSchema>;

const keyOf = (personId: string) => `heddle.last-place.${personId}`;

/** Keeps where a person is, on this machine only. */
export const keepLastPlace = (personId: string, place: LastPlace): void =>
  localStorage.setItem(keyOf(personId), JSON.stringify(place));

/** Where the person was last on this machine; null where nothing readable is kept. */
export function lastPlaceOf(personId: string): LastPlace | null {
  const kept = localStorage.getItem(keyOf(personId));
  if (kept === null) return null;
  try {
    return placeSchema.safeParse(JSON.parse(kept)).data ?? null;
  } catch {
    return null; // not ours, or cut short: as good as nothing kept
  }
}
