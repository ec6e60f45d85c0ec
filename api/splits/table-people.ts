import { Injectable } from '@nestjs/common';
import type { Server, Socket } from 'socket.io';
import type { z } from 'zod';
import type { presence, ServerMessage } from '../../contract/index.ts';

type Presence = z.output<typeof presence>;
type Peers = Extract<ServerMessage, { type: 'peers' }>['peers'];

/** What is known of an open socket; small, for it crosses between processes. */
export interface TableSocketData {
  person: { readonly id: string; readonly name: string };
  /** By song: where this person is at its table. */
  tables: Record<string, Presence>;
}

type Received = Record<string, (body: unknown) => void>;
interface Sent {
  message: (body: ServerMessage) => void;
}
export type TableServer = Server<Received, Sent, Record<string, never>, TableSocketData>;
export type TableSocket = Socket<Received, Sent, Record<string, never>, TableSocketData>;

/** **Units** milliseconds between two lists of peers at one table. */
const PEERS_APART = 100;

export const roomOfSong = (songId: string): string => `song:${songId}`;
export const roomOfMember = (courseId: string, personId: string): string => `member:${courseId}:${personId}`;

/** Who is at which table; in memory only. */
@Injectable()
export class TablePeople {
  private readonly due = new Map<string, NodeJS.Timeout>();

  async peersOf(server: TableServer, songId: string): Promise<Peers> {
    const sockets = await server.in(roomOfSong(songId)).fetchSockets();
    return sockets.map(({ id, data }) => ({
      connectionId: id,
      personId: data.person.id,
      name: data.person.name,
      presence: data.tables[songId] ?? { bar: null, selection: [] },
    }));
  }

  /** Tells a table who is at it, soon; what changes until then goes out together. */
  tellSoon(server: TableServer, songId: string, onError: (error: unknown) => void): void {
    if (this.due.has(songId)) return;
    const timer = setTimeout(() => {
      this.due.delete(songId);
      this.tell(server, songId).catch(onError);
    }, PEERS_APART);
    timer.unref();
    this.due.set(songId, timer);
  }

  stop(): void {
    for (const timer of this.due.values()) clearTimeout(timer);
    this.due.clear();
  }

  private async tell(server: TableServer, songId: string): Promise<void> {
    const peers = await this.peersOf(server, songId);
    if (peers.length > 0) server.to(roomOfSong(songId)).emit('message', { type: 'peers', songId, peers });
  }
}
