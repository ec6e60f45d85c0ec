import { v7 as newUuid } from 'uuid';
import type { SongSound } from '../../../contract/index.ts';
import { activeLines, operationId, type Excerpt, type Score } from '../../../music/index.ts';
import { KeptDocument } from '../../lib/api/kept-document.ts';
import { fetchSongSound, saveSongSound } from '../../lib/api/song-sound.ts';
import { RoomClient } from '../../lib/room/room-client.ts';
import { openRoomSocket } from '../../lib/room/room-socket.ts';
import { browserTimers } from '../../lib/room/throttle.ts';
import { browserUnsentStore } from '../../lib/room/unsent-store.ts';
import { lineTones } from '../../playback/line-tones.ts';
import { Player } from '../../playback/player.ts';
import proposerUrl from './proposer-worker.ts?worker&url';
import { Table } from './table.ts';
import { TableSound } from './table-sound.ts';
import type { TableView } from './table-state.ts';

/** Everything that lives as long as one splitting table is open, outside React. */
export interface Desk {
  readonly room: RoomClient;
  readonly table: Table;
  readonly sound: TableSound;
  /** How the song is played, and its named mixes. */
  readonly kept: KeptDocument<SongSound>;
  readonly close: () => void;
}

interface DeskSetup {
  readonly songId: string;
  readonly personId: string;
  readonly score: Score;
  readonly view: TableView;
  readonly excerpt: Excerpt | null;
}

/** Sits down at a song's table, with what could not be sent last time taken up again. */
export async function openDesk({ songId, personId, score, view, excerpt }: DeskSetup): Promise<Desk> {
  const room = new RoomClient({
    songId,
    person: { id: personId },
    socket: openRoomSocket(window.location.origin),
    store: browserUnsentStore(songId, personId, newUuid),
    newId: () => operationId(newUuid()),
    timers: browserTimers,
  });
  const kept = new KeptDocument<SongSound>({
    fetch: () => fetchSongSound(songId),
    save: (document, etag) => saveSongSound(songId, document, etag),
  });
  const sound = new TableSound(new Player(), score, room, kept);
  const table = new Table({
    score,
    room,
    view,
    excerpt,
    newId: newUuid,
    openProposer: () => new Worker(proposerUrl, { type: 'module', name: 'heddle-proposer' }),
    timers: browserTimers,
    sound: (note) => sound.touch(note),
    tones: () =>
      lineTones(
        activeLines(room.getSnapshot().split).map(({ id }) => id),
        sound.player.getSnapshot(),
      ),
  });
  const endTones = sound.player.subscribe(() => table.tonesChanged());
  sound.restAt(excerpt);
  void kept.load();
  await room.start();
  return {
    room,
    table,
    sound,
    kept,
    close: () => {
      endTones();
      table.destroy();
      sound.destroy();
      room.leave();
    },
  };
}
