import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { SignInRepository } from '../people/sign-in.repository.ts';
import type { TableSocket } from './table-people.ts';

/** **Units** milliseconds between two looks at the session behind an open socket. */
const LOOK_APART = 15_000;

const cookiesOf = (socket: TableSocket): Headers => new Headers({ cookie: socket.request.headers.cookie ?? '' });

/** Lets only the signed-in open a socket, and ends the socket of a session that has ended. */
@Injectable()
export class TableSessions implements OnApplicationShutdown {
  private readonly open = new Set<TableSocket>();
  private timer: NodeJS.Timeout | null = null;

  constructor(private readonly signIn: SignInRepository) {}

  /** Whether somebody is signed in on this socket; remembers who. */
  async admit(socket: TableSocket): Promise<boolean> {
    const session = await this.signIn.sessionOf(cookiesOf(socket));
    if (session === null) return false;
    socket.data = { person: { id: session.person.id, name: session.person.name }, tables: {} };
    return true;
  }

  watch(socket: TableSocket, onError: (error: unknown) => void): void {
    this.open.add(socket);
    socket.once('disconnect', () => this.open.delete(socket));
    this.timer ??= setInterval(() => {
      this.lookAgain().catch(onError);
    }, LOOK_APART).unref();
  }

  /** Ends every socket whose session has ended. */
  async lookAgain(): Promise<void> {
    for (const socket of [...this.open]) {
      const session = await this.signIn.sessionOf(cookiesOf(socket));
      if (session?.person.id !== socket.data.person.id) socket.disconnect(true);
    }
  }

  onApplicationShutdown(): void {
    if (this.timer !== null) clearInterval(this.timer);
  }
}
