import { Injectable } from '@nestjs/common';
import type { ServerMessage } from '../../contract/index.ts';
import type { Submission } from '../../music/index.ts';
import { SongAccess } from '../scores/song-access.ts';
import { SplitsService, type CatchUp } from './splits.service.ts';
import { roomOfMember, roomOfSong, TablePeople, type TableServer, type TableSocket } from './table-people.ts';

type Peers = Extract<ServerMessage, { type: 'peers' }>['peers'];

function told(songId: string, caughtUp: CatchUp, peers: Peers): ServerMessage {
  if (caughtUp.kind === 'operations') return { type: 'catchUp', songId, operations: [...caughtUp.operations], peers };
  const { revision, lines, marks } = caughtUp.snapshot;
  const toldMarks = marks.map(([note, mark]): [string, (typeof marks)[number][1]] => [note, mark]);
  return { type: 'snapshot', songId, snapshot: { revision, lines: [...lines], marks: toldMarks }, peers };
}

const revisionAfter = (caughtUp: CatchUp, known: number | null): number =>
  caughtUp.kind === 'snapshot' ? caughtUp.snapshot.revision : (caughtUp.operations.at(-1)?.revision ?? known ?? 0);

/** Seats people at a song's table and takes what they hand in there. */
@Injectable()
export class TableSeats {
  constructor(
    private readonly splits: SplitsService,
    private readonly access: SongAccess,
    private readonly people: TablePeople,
  ) {}

  /** Sends what the client misses, then lets it follow; what was ordered in between is sent as well. */
  async join(server: TableServer, socket: TableSocket, songId: string, knownRevision: number | null): Promise<void> {
    const { person } = socket.data;
    const song = await this.access.require(person, songId, 'split.mark');
    const caughtUp = await this.splits.catchUp(person, songId, knownRevision);
    socket.data.tables[songId] ??= { bar: null, selection: [] };
    await socket.join([roomOfSong(songId), roomOfMember(song.courseId, person.id)]);
    send(socket, told(songId, caughtUp, await this.people.peersOf(server, songId)));
    const missed = await this.splits.catchUp(person, songId, revisionAfter(caughtUp, knownRevision));
    if (missed.kind === 'snapshot' || missed.operations.length > 0) {
      send(socket, told(songId, missed, await this.people.peersOf(server, songId)));
    }
  }

  async leave(socket: TableSocket, songId: string): Promise<void> {
    const { [songId]: left, ...others } = socket.data.tables;
    if (left === undefined) return;
    socket.data.tables = others;
    await socket.leave(roomOfSong(songId));
  }

  /** What was written before is answered to its author once more; what is new reaches everybody by the feed. */
  async submit(socket: TableSocket, songId: string, submission: Submission): Promise<void> {
    const { operation, isNew } = await this.splits.submit(socket.data.person, songId, submission);
    if (!isNew) send(socket, { type: 'ordered', songId, operation });
  }
}

/** Sends one message of the protocol. */
export const send = (socket: TableSocket, message: ServerMessage): void => {
  socket.emit('message', message);
};
