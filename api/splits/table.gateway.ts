import { Inject, type OnApplicationShutdown } from '@nestjs/common';
import {
  ConnectedSocket,
  MessageBody,
  SubscribeMessage,
  WebSocketGateway,
  WebSocketServer,
  type OnGatewayConnection,
  type OnGatewayInit,
} from '@nestjs/websockets';
import { PROTOCOL_VERSION, type ClientMessage } from '../../contract/index.ts';
import { Clock } from '../clock/clock.ts';
import { isDatabaseAway } from '../errors/database-away.ts';
import { DomainError } from '../errors/domain-error.ts';
import { LOG, type Log } from '../http/log.ts';
import { Announcements } from './announcements.ts';
import { readMessage, refusalOf } from './table-message.ts';
import { roomOfMember, roomOfSong, TablePeople, type TableServer, type TableSocket } from './table-people.ts';
import { TableSessions } from './table-sessions.ts';
import { send, TableSeats } from './table-seats.ts';

/** **Units** bytes; larger operations go by REST. */
const LARGEST_MESSAGE_BYTES = 256 * 1024;
const MOST_WAITING = 200;

/** The splitting table's door: authenticates, parses, hands on, and sends what comes back. */
@WebSocketGateway({
  path: '/socket',
  transports: ['websocket'],
  maxHttpBufferSize: LARGEST_MESSAGE_BYTES,
  serveClient: false,
})
export class TableGateway implements OnGatewayInit, OnGatewayConnection, OnApplicationShutdown {
  @WebSocketServer()
  private readonly server: TableServer;

  private readonly waiting = new WeakMap<TableSocket, { count: number; last: Promise<void> }>();

  constructor(
    private readonly seats: TableSeats,
    private readonly people: TablePeople,
    private readonly sessions: TableSessions,
    private readonly announcements: Announcements,
    private readonly clock: Clock,
    @Inject(LOG) private readonly log: Log,
  ) {}

  afterInit(server: TableServer): void {
    server.use((socket, next) => {
      this.sessions.admit(socket).then(
        (isIn) => next(isIn ? undefined : new Error('not-signed-in')),
        (error: unknown) => this.hangUp(socket, error), // a refusal would tell the client not to come back
      );
    });
    this.announcements.feed.subscribe(({ songId, operation }) => {
      server.to(roomOfSong(songId)).emit('message', { type: 'ordered', songId, operation });
    });
    this.announcements.ended.subscribe(({ courseId, personId }) => {
      server.in(roomOfMember(courseId, personId)).disconnectSockets(true);
    });
  }

  handleConnection(socket: TableSocket): void {
    this.sessions.watch(socket, (error) => this.fail(error));
    socket.once('disconnecting', () => {
      for (const songId of Object.keys(socket.data.tables)) this.tellPeers(songId);
    });
  }

  onApplicationShutdown(): void {
    this.people.stop();
  }

  /** Messages of one socket are dealt with one after the other, in the order in which they came. */
  @SubscribeMessage('message')
  receive(@MessageBody() body: unknown, @ConnectedSocket() socket: TableSocket): void {
    const queue = this.waiting.get(socket) ?? { count: 0, last: Promise.resolve() };
    if (queue.count >= MOST_WAITING) {
      socket.disconnect(true);
      return;
    }
    const last = queue.last.then(() => this.answer(body, socket)).finally(() => (queue.count -= 1));
    this.waiting.set(socket, Object.assign(queue, { count: queue.count + 1, last }));
  }

  private async answer(body: unknown, socket: TableSocket): Promise<void> {
    if (!socket.connected) return;
    try {
      await this.deal(readMessage(body), socket);
    } catch (error) {
      if (isDatabaseAway(error)) {
        this.hangUp(socket, error);
        return;
      }
      const requestId = this.clock.newId();
      const refusal = refusalOf(body, error, requestId);
      if (refusal.type === 'refused' && refusal.code === 'internal')
        this.log.error({ err: error, requestId }, 'message failed');
      send(socket, refusal);
    }
  }

  private async deal(message: ClientMessage, socket: TableSocket): Promise<void> {
    const { songId } = message;
    if (message.type === 'join') {
      if (message.protocol !== PROTOCOL_VERSION)
        throw new DomainError('body-invalid', `This server speaks protocol ${PROTOCOL_VERSION}. Reload the page.`);
      await this.seats.join(this.server, socket, songId, message.knownRevision);
      this.tellPeers(songId);
      return;
    }
    if (message.type === 'leave') {
      await this.seats.leave(socket, songId);
      this.tellPeers(songId);
      return;
    }
    if (socket.data.tables[songId] === undefined) throw new DomainError('not-permitted', 'Join the table first.');
    if (message.type === 'submit') return this.seats.submit(socket, songId, message.submission);
    socket.data.tables[songId] = message.presence;
    this.tellPeers(songId);
  }

  /** Ends the connection without a word: whether the message was written is not known, so the client comes back and sends it again. */
  private hangUp(socket: TableSocket, error: unknown): void {
    this.fail(error);
    socket.conn.close();
  }

  private tellPeers(songId: string): void {
    this.people.tellSoon(this.server, songId, (error) => this.fail(error));
  }

  private fail(error: unknown): void {
    this.log.error({ err: error }, 'socket work failed');
  }
}
