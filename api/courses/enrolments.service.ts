import { Injectable } from '@nestjs/common';
import type { z } from 'zod';
import type { enrolmentCodeMade, enrolmentDraft, enrolmentTold } from '../../contract/index.ts';
import { DomainError } from '../errors/domain-error.ts';
import { PeopleService } from '../people/people.service.ts';
import type { Person } from '../people/person.ts';
import { CourseAccess } from './course-access.ts';
import { CourseRepository } from './course.repository.ts';
import type { EnrolmentCodeEntity } from './enrolment-code.entity.ts';
import type { CameIn } from './invitations.service.ts';
import { LinkWriter } from './link-writer.ts';
import { MembershipRepository } from './membership.repository.ts';
import { hashOfSecret, newCode, plainCode } from './secrets.ts';
import { WaysInRepository } from './ways-in.repository.ts';

const CODE_DAYS = 30;
const DAY_MILLISECONDS = 86_400_000;

@Injectable()
export class EnrolmentsService {
  constructor(
    private readonly waysIn: WaysInRepository,
    private readonly memberships: MembershipRepository,
    private readonly courses: CourseRepository,
    private readonly access: CourseAccess,
    private readonly people: PeopleService,
    private readonly links: LinkWriter,
  ) {}

  /** A code that lets students in for thirty days; told only now. */
  async makeCode(by: Person, courseId: string): Promise<z.output<typeof enrolmentCodeMade>> {
    await this.access.require(by.id, courseId, 'people.enrol');
    const { clock } = this.links;
    const code = newCode((count) => clock.randomBytes(count));
    const madeAt = clock.now();
    const expiresAt = new Date(madeAt.getTime() + CODE_DAYS * DAY_MILLISECONDS);
    await this.waysIn.insertCode({
      id: clock.newId(),
      courseId,
      codeHash: hashOfSecret(plainCode(code)),
      madeBy: by.id,
      madeAt,
      expiresAt,
    });
    return { code, link: this.links.to(`/enrol/${code}`), expiresAt: expiresAt.toISOString() };
  }

  /** What a code is for. **Errors** `not-found`, `code-expired`. */
  async tell(code: string): Promise<z.output<typeof enrolmentTold>> {
    const found = await this.open(code);
    return {
      courseTitle: (await this.courses.titleOf(found.courseId)) ?? '',
      expiresAt: found.expiresAt.toISOString(),
    };
  }

  /** Lets a student in; who is in the course already keeps the role. **Errors** `not-found`, `code-expired`, `not-signed-in`, `already-there`. */
  async enrol(
    by: Person | null,
    { code, newcomer }: z.output<typeof enrolmentDraft>,
    headers: Headers,
  ): Promise<CameIn> {
    const { courseId } = await this.open(code);
    const welcomed =
      by !== null || newcomer === undefined
        ? null
        : await this.people.welcome({ ...newcomer, isVerified: false }, headers);
    const person = by ?? welcomed?.person;
    if (person === undefined)
      throw new DomainError('not-signed-in', 'Sign in, or give a name, an address and a password.');
    const role = await this.memberships.join({
      courseId,
      personId: person.id,
      role: 'student',
      joinedAt: this.links.clock.now(),
    });
    return { joined: { courseId, role }, cookies: welcomed?.cookies ?? [] };
  }

  private async open(code: string): Promise<EnrolmentCodeEntity> {
    const found = await this.waysIn.codeWith(hashOfSecret(plainCode(code)));
    if (found === null) throw new DomainError('not-found', 'There is no such code.');
    if (found.expiresAt <= this.links.clock.now())
      throw new DomainError('code-expired', 'This code has run out. Ask your teacher for a new one.');
    return found;
  }
}
