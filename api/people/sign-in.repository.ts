import { AsyncLocalStorage } from 'node:async_hooks';
import { Inject, Injectable } from '@nestjs/common';
import type { Pool } from 'pg';
import { DataSource } from 'typeorm';
import { Clock } from '../clock/clock.ts';
import type { Config } from '../config/config.ts';
import { CONFIG } from '../config/config.module.ts';
import { LOG, type Log } from '../http/log.ts';
import type { Person } from './person.ts';
import { hashPassword, signInLibrary, silenceReports, type SignInLibrary } from './sign-in-options.ts';

/** A session found for a request, with the cookies that renew it. */
export interface FoundSession {
  readonly person: Person;
  readonly cookies: readonly string[];
}

/** The one place that knows the sign-in library. */
@Injectable()
export class SignInRepository {
  private readonly library: SignInLibrary;
  private readonly issued = new AsyncLocalStorage<{ token: string | null }>();

  constructor(
    private readonly source: DataSource,
    clock: Clock,
    @Inject(CONFIG) config: Config,
    @Inject(LOG) log: Log,
  ) {
    silenceReports(process.env);
    this.library = signInLibrary({
      pool: (source.driver as unknown as { master: Pool }).master,
      config,
      newId: () => clock.newId(),
      onLinkToken: (token) => this.keepToken(token),
      log: (level, message) => log[level === 'success' ? 'info' : level]({ from: 'sign-in' }, message),
    });
  }

  /** Lets the library answer one of its own routes. */
  async handle(request: Request): Promise<Response> {
    const response = await this.library.handler(request);
    if (response.status < 500) return response;
    await this.source.query('SELECT 1'); // an absent database says so here
    throw new Error(`The sign-in library answered ${response.status}`);
  }

  async sessionOf(headers: Headers): Promise<FoundSession | null> {
    const { response, headers: answer } = await this.lookUp(headers);
    if (response === null) return null;
    const { id, name, email } = response.user;
    return { person: { id, name, email }, cookies: answer.getSetCookie() };
  }

  /** A new one-time token for the person with this address. */
  async makeLinkToken(email: string): Promise<string> {
    const holder: { token: string | null } = { token: null };
    await this.issued.run(holder, () => this.library.api.signInMagicLink({ body: { email }, headers: new Headers() }));
    if (holder.token === null) throw new Error('Heddle bug: the sign-in library made no token');
    return holder.token;
  }

  /** The cookies of the session that a one-time token opens; null where the token is unknown, used or run out. */
  async takeLinkToken(token: string, headers: Headers): Promise<readonly string[] | null> {
    const response = await this.library.api.magicLinkVerify({ query: { token }, headers, asResponse: true });
    return response.status === 200 ? response.headers.getSetCookie() : null;
  }

  /** The cookies of the session that an address and a password open; null where they do not fit. */
  async takePassword(email: string, password: string, headers: Headers): Promise<readonly string[] | null> {
    const response = await this.library.api.signInEmail({ body: { email, password }, headers, asResponse: true });
    return response.status === 200 ? response.headers.getSetCookie() : null;
  }

  async makePerson(draft: { name: string; email: string; isVerified: boolean }): Promise<Person> {
    const { internalAdapter } = await this.library.$context;
    const { id, name, email } = await internalAdapter.createUser(
      { name: draft.name, email: draft.email.toLowerCase(), emailVerified: draft.isVerified },
      { method: 'admin' },
    );
    return { id, name, email };
  }

  async hasPassword(personId: string): Promise<boolean> {
    const { internalAdapter } = await this.library.$context;
    const accounts = await internalAdapter.findAccounts(personId);
    return accounts.some((account) => account.providerId === 'credential');
  }

  async setPassword(personId: string, password: string): Promise<void> {
    const { internalAdapter } = await this.library.$context;
    const hashed = await hashPassword(password);
    if (await this.hasPassword(personId)) return internalAdapter.updatePassword(personId, hashed);
    await internalAdapter.linkAccount({
      userId: personId,
      providerId: 'credential',
      accountId: personId,
      password: hashed,
    });
  }

  async isPassword(personId: string, password: string): Promise<boolean> {
    const { internalAdapter, password: hasher } = await this.library.$context;
    const accounts = await internalAdapter.findAccounts(personId);
    const stored = accounts.find((account) => account.providerId === 'credential')?.password;
    return typeof stored === 'string' && (await hasher.verify({ hash: stored, password }));
  }

  async endSessionsOf(personId: string): Promise<void> {
    const { internalAdapter } = await this.library.$context;
    await internalAdapter.deleteUserSessions(personId);
  }

  private async lookUp(headers: Headers) {
    try {
      return await this.library.api.getSession({ headers, returnHeaders: true });
    } catch (error) {
      await this.source.query('SELECT 1'); // the library hides why it failed; an absent database says so here
      throw error;
    }
  }

  private keepToken(token: string): void {
    const holder = this.issued.getStore();
    if (holder !== undefined) holder.token = token;
  }
}
