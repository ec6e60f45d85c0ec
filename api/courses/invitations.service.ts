import { Injectable } from '@nestjs/common';
import type { z } from 'zod';
import type {
  courseJoined,
  invitationAcceptance,
  invitationDraft,
  invitationMade,
  invitationTold,
} from '../../contract/index.ts';
import { Database } from '../database/database.ts';
import { DomainError, notFound } from '../errors/domain-error.ts';
import { PeopleService } from '../people/people.service.ts';
import type { Person } from '../people/person.ts';
import { CourseAccess } from './course-access.ts';
import { LinkWriter } from './link-writer.ts';
import { MembershipRepository } from './membership.repository.ts';
import { hashOfSecret, newToken } from './secrets.ts';
import { WaysInRepository, type InvitationFound } from './ways-in.repository.ts';

const INVITATION_DAYS = 14;
const DAY_MILLISECONDS = 86_400_000;

/** Who has come in, and the cookies that sign a newcomer in. */
export interface CameIn {
  readonly joined: z.output<typeof courseJoined>;
  readonly cookies: readonly string[];
}

@Injectable()
export class InvitationsService {
  constructor(
    private readonly waysIn: WaysInRepository,
    private readonly memberships: MembershipRepository,
    private readonly access: CourseAccess,
    private readonly people: PeopleService,
    private readonly database: Database,
    private readonly links: LinkWriter,
  ) {}

  /** Invites a co-teacher; the link is told only now. */
  async invite(
    by: Person,
    courseId: string,
    { email }: z.output<typeof invitationDraft>,
  ): Promise<z.output<typeof invitationMade>> {
    await this.access.require(by.id, courseId, 'people.invite');
    const { clock } = this.links;
    const token = newToken((count) => clock.randomBytes(count));
    const madeAt = clock.now();
    const expiresAt = new Date(madeAt.getTime() + INVITATION_DAYS * DAY_MILLISECONDS);
    const id = clock.newId();
    await this.waysIn.insertInvitation({
      id,
      courseId,
      email: email.toLowerCase(),
      tokenHash: hashOfSecret(token),
      invitedBy: by.id,
      madeAt,
      expiresAt,
      acceptedAt: null,
    });
    return { id, email, link: this.links.to(`/invitations/${token}`), expiresAt: expiresAt.toISOString() };
  }

  /** Withdraws an invitation that nobody has taken up; its link leads nowhere from then on. **Errors** `not-found`. */
  async withdraw(by: Person, courseId: string, invitationId: string): Promise<void> {
    await this.access.require(by.id, courseId, 'people.invite');
    if (!(await this.waysIn.removeInvitation(courseId, invitationId))) throw notFound('invitation');
  }

  /** What an invitation is for. **Errors** `not-found`, `code-expired`. */
  async tell(token: string): Promise<z.output<typeof invitationTold>> {
    const found = await this.open(token);
    return {
      courseTitle: found.courseTitle,
      invitedByName: found.invitedByName,
      email: found.email,
      role: 'coTeacher',
      expiresAt: found.expiresAt.toISOString(),
      personExists: (await this.people.withEmail(found.email)) !== null,
    };
  }

  /** Takes an invitation up. **Errors** `not-found`, `code-expired`, `not-signed-in`, `already-there`. */
  async accept(
    by: Person | null,
    token: string,
    { newcomer }: z.output<typeof invitationAcceptance>,
    headers: Headers,
  ): Promise<CameIn> {
    const found = await this.open(token);
    if (by === null && newcomer === undefined)
      throw new DomainError('not-signed-in', 'Sign in, or give a name and a password.');
    const welcomed =
      by !== null || newcomer === undefined
        ? null
        : await this.people.welcome({ ...newcomer, email: found.email, isVerified: true }, headers);
    const person = by ?? welcomed?.person;
    if (person === undefined) throw new DomainError('not-signed-in', 'Sign in, or give a name and a password.');
    const joined = await this.database.transaction(() => this.letIn(person, found));
    return { joined, cookies: welcomed?.cookies ?? [] };
  }

  private async letIn(person: Person, found: InvitationFound): Promise<z.output<typeof courseJoined>> {
    const { courseId, id } = found;
    const now = this.links.clock.now();
    if (!(await this.waysIn.useInvitation(id, now))) throw expired();
    const role = await this.memberships.join({ courseId, personId: person.id, role: 'coTeacher', joinedAt: now });
    if (role !== 'student') return { courseId, role };
    await this.memberships.changeRole(person.id, courseId, 'coTeacher');
    return { courseId, role: 'coTeacher' };
  }

  private async open(token: string): Promise<InvitationFound> {
    const found = await this.waysIn.invitationWith(hashOfSecret(token));
    if (found === null) throw new DomainError('not-found', 'There is no such invitation.');
    if (found.acceptedAt !== null || found.expiresAt <= this.links.clock.now()) throw expired();
    return found;
  }
}

const expired = (): DomainError =>
  new DomainError('code-expired', 'This invitation has run out or was taken up before. Ask for a new one.');
