import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { UnsentWork } from '../../../music/index.ts';

/** Where work that the server has not taken yet outlives a reload. */
export interface UnsentStore {
  /** What this table kept before, and what closed tables of the same person left behind. */
  readonly load: () => Promise<UnsentWork>;
  readonly save: (work: UnsentWork) => Promise<void>;
}

interface UnsentSchema extends DBSchema {
  readonly unsent: { readonly key: string; readonly value: UnsentWork };
}

const storeName = 'unsent';
const nothing: UnsentWork = { pending: [], tray: [] };

const openStore = (): Promise<IDBPDatabase<UnsentSchema>> =>
  openDB<UnsentSchema>('heddle-room', 1, { upgrade: (database) => void database.createObjectStore(storeName) });

/** A store in the browser's database: one entry for each open tab, so that two tabs never overwrite each other. */
export function browserUnsentStore(songId: string, personId: string, newTabId: () => string): UnsentStore {
  const prefix = `${songId}/${personId}/`;
  const own = prefix + tabId(newTabId);
  const database = openStore();
  hold(own);
  return {
    load: async () => {
      const opened = await database;
      const keys = (await opened.getAllKeys(storeName)).filter((key) => key.startsWith(prefix));
      const works: UnsentWork[] = [];
      for (const key of keys) {
        if (key !== own && !(await isLeftBehind(key))) continue;
        works.push((await opened.get(storeName, key)) ?? nothing);
        if (key !== own) await opened.delete(storeName, key);
      }
      const merged = { pending: works.flatMap((work) => work.pending), tray: works.flatMap((work) => work.tray) };
      await opened.put(storeName, merged, own);
      return merged;
    },
    save: async (work) => {
      const opened = await database;
      if (work.pending.length + work.tray.length === 0) await opened.delete(storeName, own);
      else await opened.put(storeName, work, own);
    },
  };
}

function tabId(newTabId: () => string): string {
  const name = 'heddle-tab';
  const known = sessionStorage.getItem(name);
  if (known !== null) return known;
  const made = newTabId();
  sessionStorage.setItem(name, made);
  return made;
}

/** Holds a lock of this name for as long as the tab lives. */
function hold(key: string): void {
  const forever = new Promise<void>(() => undefined);
  void navigator.locks.request(`heddle-unsent/${key}`, () => forever);
}

const isLeftBehind = (key: string): Promise<boolean> =>
  navigator.locks.request(`heddle-unsent/${key}`, { ifAvailable: true }, (lock) => lock !== null);
