import { useSyncExternalStore } from 'react';
import { z } from 'zod';
import type { PitchRange } from '../../music/index.ts';
import { useMe } from './api/use-me.ts';

/** What can stand at the notes of a ribbon. */
const labelKinds = ['names', 'degrees', 'solfa', 'words', 'none'] as const;
export type LabelKind = (typeof labelKinds)[number];

/** The lowest and highest notes that anybody may set for a voice, and how far apart they must be. **Units** MIDI note numbers; semitones. */
export const [deepestMidi, highestMidi, narrowestSemitones] = [33, 88, 7] as const;

const midi = z.number().int().min(deepestMidi).max(highestMidi);
const ownSchema = z.object({
  labels: z.enum(labelKinds),
  /** Which of several verses is sung; the first of a score that has it not. */
  verse: z.string().max(200).nullable().default(null),
  /** Where somebody sings comfortably; null until that is said. */
  voice: z
    .object({ lowMidi: midi, highMidi: midi })
    .refine(({ lowMidi, highMidi }) => highMidi - lowMidi >= narrowestSemitones)
    .nullable(),
});

/** How somebody likes to sing along: kept in this browser only. */
interface OwnSinging {
  readonly labels: LabelKind;
  readonly verse: string | null;
  readonly voice: PitchRange | null;
}

const untold: OwnSinging = { labels: 'names', verse: null, voice: null };
const keyOf = (personId: string): string => `heddle.singing.${personId}`;
const listeners = new Set<() => void>();
let latest: { readonly text: string | null; readonly own: OwnSinging } = { text: null, own: untold };

/** What a text that was kept says; the usual where it is not ours. */
export function ownSingingIn(text: string | null): OwnSinging {
  if (text === null) return untold;
  try {
    return ownSchema.safeParse(JSON.parse(text)).data ?? untold;
  } catch {
    return untold; // cut short, or not ours: as good as nothing kept
  }
}

/** What a person has chosen in this browser; the same object for as long as it stays the same. */
function ownSingingOf(personId: string): OwnSinging {
  const text = localStorage.getItem(keyOf(personId));
  if (latest.text !== text) latest = { text, own: ownSingingIn(text) };
  return latest.own;
}

function keep(personId: string, own: OwnSinging): void {
  localStorage.setItem(keyOf(personId), JSON.stringify(own));
  for (const listener of listeners) listener();
}

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  return () => void listeners.delete(listener);
}

/** What the person who is signed in has chosen, and how to choose otherwise. */
export function useOwnSinging(): readonly [OwnSinging, (part: Partial<OwnSinging>) => void] {
  const { id } = useMe();
  const own = useSyncExternalStore(subscribe, () => ownSingingOf(id));
  return [own, (part) => keep(id, { ...ownSingingOf(id), ...part })];
}
