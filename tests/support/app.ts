import type { AddressInfo } from 'node:net';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { createApp, deskOf, readConfig, type Clock, type Desk, type Person } from '../../api/index.ts';
import { PeopleService } from '../../api/people/people.service.ts';
import { Caller } from './caller.ts';
import { createTestDatabase } from './database/test-database.ts';
import { freePort } from './free-port.ts';

/** A running API on a database of its own. */
export interface TestApp {
  readonly app: NestFastifyApplication;
  readonly desk: Desk;
  readonly origin: string;
  readonly databaseUrl: string;
  /** Somebody new who is signed in; the name is made into an address. */
  person(name: string): Promise<SignedIn>;
  /** Somebody who is not signed in. */
  stranger(): Caller;
  stop(): Promise<void>;
}

/** A person and the one who calls in that name. */
export interface SignedIn {
  readonly person: Person;
  readonly as: Caller;
}

/** What a test may decide about its app. */
export interface TestAppChoices {
  readonly clock?: Clock;
  readonly environment?: Readonly<Record<string, string>>;
  /** A database that another app of the same test made. */
  readonly databaseUrl?: string;
}

/** Starts the API on a port of its own. */
export async function startApp({ clock, environment = {}, databaseUrl }: TestAppChoices = {}): Promise<TestApp> {
  const database =
    databaseUrl === undefined ? await createTestDatabase() : { url: databaseUrl, drop: () => Promise.resolve() };
  const config = readConfig({
    PORT: String(await freePort()),
    DATABASE_URL: database.url,
    HEDDLE_SECRET: 'only-for-tests-0123456789-ABCDEFGHIJ-abcdefghij',
    HEDDLE_LOG_LEVEL: 'error',
    HEDDLE_SIGN_INS_PER_MINUTE: '10000',
    HEDDLE_READERS: '1',
    HEDDLE_WEB_DIR: 'tests/support/web-files',
    ...environment,
  });
  const app = await createApp(config, clock === undefined ? {} : { clock });
  await app.listen(config.port, '127.0.0.1');
  const { port } = app.getHttpServer().address() as AddressInfo;
  const origin = `http://127.0.0.1:${port}`;
  const desk = deskOf(app);
  return {
    app,
    desk,
    origin,
    databaseUrl: database.url,
    person: (name) => signedIn(app, desk, origin, name),
    stranger: () => new Caller(origin),
    stop: async () => {
      await app.close();
      await database.drop();
    },
  };
}

async function signedIn(app: NestFastifyApplication, desk: Desk, origin: string, name: string): Promise<SignedIn> {
  const person = await desk.personNamed(name, `${name.toLowerCase().replaceAll(' ', '.')}@example.org`);
  const link = await app.get(PeopleService).issueSignInLink(person.email);
  const as = new Caller(origin);
  await as
    .post('/api/sign-in-links/acceptance', { token: link.slice(link.lastIndexOf('/') + 1) })
    .then((answer) => answer.expect(204));
  return { person, as };
}
