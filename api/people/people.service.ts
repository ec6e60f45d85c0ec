import { Inject, Injectable } from '@nestjs/common';
import type { Config } from '../config/config.ts';
import { CONFIG } from '../config/config.module.ts';
import { DomainError, notFound } from '../errors/domain-error.ts';
import type { Person } from './person.ts';
import { PersonRepository } from './person.repository.ts';
import { SignInRepository } from './sign-in.repository.ts';

/** What a newcomer tells of himself or herself. */
export interface Newcomer {
  readonly name: string;
  readonly email: string;
  readonly password: string | null;
  /** Whether somebody vouches that the address is theirs. */
  readonly isVerified: boolean;
}

/** A newcomer with the cookies of the first session. */
export interface Welcomed {
  readonly person: Person;
  readonly cookies: readonly string[];
}

@Injectable()
export class PeopleService {
  constructor(
    private readonly people: PersonRepository,
    private readonly signIn: SignInRepository,
    @Inject(CONFIG) private readonly config: Config,
  ) {}

  async me(by: Person): Promise<Person & { hasPassword: boolean }> {
    return { id: by.id, name: by.name, email: by.email, hasPassword: await this.signIn.hasPassword(by.id) };
  }

  withEmail(email: string): Promise<Person | null> {
    return this.people.withEmail(email);
  }

  /** A new person. **Errors** `already-there` where the address is taken. */
  async makePerson(newcomer: Newcomer): Promise<Person> {
    if ((await this.people.withEmail(newcomer.email)) !== null) {
      throw new DomainError(
        'already-there',
        'Somebody with this address is here already. Sign in first, then open the link again.',
      );
    }
    const person = await this.signIn.makePerson(newcomer);
    if (newcomer.password !== null) await this.signIn.setPassword(person.id, newcomer.password);
    return person;
  }

  /** The address under which the person with this e-mail address may sign in once within fifteen minutes. */
  async issueSignInLink(email: string): Promise<string> {
    const person = await this.people.withEmail(email);
    if (person === null) throw notFound('person');
    return `${this.config.origins[0]}/sign-in/${await this.signIn.makeLinkToken(person.email)}`;
  }

  /** The cookies of the session that a one-time link opens. **Errors** `code-expired`. */
  async acceptSignInLink(token: string, headers: Headers): Promise<readonly string[]> {
    const cookies = await this.signIn.takeLinkToken(token, headers);
    if (cookies === null) {
      throw new DomainError('code-expired', 'This link has run out or was used before. Ask for a new one.');
    }
    return cookies;
  }

  /** A new person, signed in at once. **Errors** `already-there`. */
  async welcome(newcomer: Newcomer & { password: string }, headers: Headers): Promise<Welcomed> {
    const person = await this.makePerson(newcomer);
    return { person, cookies: await this.sessionBy(person.email, newcomer.password, headers) };
  }

  /** Sets a password, ends every session of its person, and gives the cookies of a new one. **Errors** `not-permitted` where a password is set already and the present one is not told rightly. */
  async setPassword(
    by: Person,
    change: { current: string | null; password: string },
    headers: Headers,
  ): Promise<readonly string[]> {
    const isSet = await this.signIn.hasPassword(by.id);
    if (isSet && !(change.current !== null && (await this.signIn.isPassword(by.id, change.current)))) {
      throw new DomainError('not-permitted', 'The present password is not right.');
    }
    await this.signIn.setPassword(by.id, change.password);
    await this.signIn.endSessionsOf(by.id);
    return this.sessionBy(by.email, change.password, headers);
  }

  private async sessionBy(email: string, password: string, headers: Headers): Promise<readonly string[]> {
    const cookies = await this.signIn.takePassword(email, password, headers);
    if (cookies === null) throw new Error('Heddle bug: a password that was just set does not fit');
    return cookies;
  }
}
