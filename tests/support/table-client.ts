import { io, type Socket } from 'socket.io-client';
import { serverMessage, type ServerMessage } from '../../contract/index.ts';
import type { Caller } from './caller.ts';

type Kind = ServerMessage['type'];
type OfKind<Type extends Kind> = Extract<ServerMessage, { type: Type }>;

const LONGEST_WAIT_MILLISECONDS = 10_000;

/** One open socket of a test, which keeps every message until somebody asks for it. */
export class TableClient {
  readonly received: ServerMessage[] = [];
  private readonly waiting = new Set<() => void>();
  closedBecause: string | null = null;
  /** Hears every message as it comes. */
  onMessage: (message: ServerMessage) => void = () => {};

  private constructor(private readonly socket: Socket) {
    socket.on('message', (body: unknown) => {
      const message = serverMessage.parse(body);
      this.received.push(message);
      this.onMessage(message);
      this.wake();
    });
    socket.on('disconnect', (reason) => {
      this.closedBecause = reason;
      this.wake();
    });
  }

  /** Opens a socket. Rejects with the server's reason where it is refused. */
  static open(caller: Caller, headers: Readonly<Record<string, string>> = {}): Promise<TableClient> {
    const extraHeaders = { ...(caller.cookie === '' ? {} : { cookie: caller.cookie }), ...headers };
    const socket = io(caller.origin, {
      path: '/socket',
      transports: ['websocket'],
      extraHeaders,
      reconnection: false,
      forceNew: true,
    });
    const client = new TableClient(socket);
    return new Promise((resolve, reject) => {
      socket.once('connect', () => resolve(client));
      socket.io.once('close', (reason) =>
        setImmediate(() => reject(new Error(`Closed before it was open: ${reason}`))),
      ); // a refusal says more
      socket.once('connect_error', (error) => {
        socket.close();
        reject(error);
      });
    });
  }

  send(body: unknown): void {
    this.socket.emit('message', body);
  }

  join(songId: string, knownRevision: number | null = null): void {
    this.send({ type: 'join', protocol: 1, songId, knownRevision });
  }

  /** The next message of a kind, taken out of what was received; earlier ones of other kinds stay. */
  async next<Type extends Kind>(
    type: Type,
    suits: (message: OfKind<Type>) => boolean = () => true,
  ): Promise<OfKind<Type>> {
    const isIt = (message: ServerMessage): message is OfKind<Type> =>
      message.type === type && suits(message as OfKind<Type>);
    await this.until(() => this.received.some(isIt), type);
    const at = this.received.findIndex(isIt);
    return this.received.splice(at, 1)[0] as OfKind<Type>;
  }

  async closed(): Promise<string> {
    await this.until(() => this.closedBecause !== null, 'the end');
    return this.closedBecause ?? '';
  }

  close(): void {
    this.socket.close();
  }

  private wake(): void {
    for (const look of this.waiting) look();
  }

  private until(isSo: () => boolean, what: string): Promise<void> {
    if (isSo()) return Promise.resolve();
    return new Promise((resolve, reject) => {
      const end = (): void => {
        clearTimeout(timer);
        this.waiting.delete(look);
      };
      const look = (): void => {
        if (!isSo()) return;
        end();
        resolve();
      };
      const timer = setTimeout(() => {
        end();
        reject(new Error(`Waited in vain for ${what}; received ${JSON.stringify(this.received).slice(0, 500)}`));
      }, LONGEST_WAIT_MILLISECONDS);
      this.waiting.add(look);
    });
  }
}
