import { useEffect, useMemo, useSyncExternalStore } from 'react';
import type { OwnMixes } from '../../../contract/index.ts';
import { KeptDocument } from '../../lib/api/kept-document.ts';
import { fetchOwnMixes, saveOwnMixes } from '../../lib/api/song-sound.ts';
import type { OwnShelf } from '../../ui/mixes/own-shelf.ts';

/** The reader's own mixes for the lesson of a release, kept on the server as they change. */
export function useOwnMixes(releaseId: string): OwnShelf {
  const kept = useMemo(
    () =>
      new KeptDocument<OwnMixes>({
        fetch: () => fetchOwnMixes(releaseId),
        save: (document, etag) => saveOwnMixes(releaseId, document, etag),
      }),
    [releaseId],
  );
  useEffect(() => void kept.load(), [kept]);
  const { document, trouble } = useSyncExternalStore(kept.subscribe, kept.getSnapshot);
  return useMemo(
    () => ({
      mixes: document?.mixes ?? [],
      change: (change) => void kept.change((present) => ({ mixes: change(present.mixes) })),
      trouble,
      again: () => void kept.load(),
    }),
    [kept, document, trouble],
  );
}
