import { useSyncExternalStore } from 'react';

/** How much softer or louder than it is played music can be asked for. **Units** decibels. */
export const [softestDb, loudestDb] = [-30, 6] as const;

const key = 'heddle.volume';
const listeners = new Set<() => void>();

/** The volume that a text which was kept says: within what can be asked for; as it is played where the text is not ours. */
export function volumeIn(text: string | null): number {
  const volumeDb = Number(text ?? 0);
  return Number.isFinite(volumeDb) ? Math.min(loudestDb, Math.max(softestDb, volumeDb)) : 0;
}

function keep(volumeDb: number): void {
  localStorage.setItem(key, String(volumeDb));
  for (const listener of listeners) listener();
}

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  return () => void listeners.delete(listener);
}

/** The volume of all music on this device, kept in its browser, and how to set it: who turned it down once is not startled by the next piece. */
export const useOwnVolume = (): readonly [volumeDb: number, keep: (volumeDb: number) => void] => [
  useSyncExternalStore(subscribe, () => volumeIn(localStorage.getItem(key))),
  keep,
];
