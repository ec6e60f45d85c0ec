import { Injectable } from '@nestjs/common';
import type { z } from 'zod';
import type { peopleOfCourse } from '../../contract/index.ts';
import { Clock } from '../clock/clock.ts';
import { notFound, notPermitted } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import { CourseAccess } from './course-access.ts';
import { MembershipEnded } from './membership-ended.ts';
import { MembershipRepository } from './membership.repository.ts';
import { WaysInRepository } from './ways-in.repository.ts';

@Injectable()
export class CoursePeopleService {
  constructor(
    private readonly memberships: MembershipRepository,
    private readonly waysIn: WaysInRepository,
    private readonly access: CourseAccess,
    private readonly ended: MembershipEnded,
    private readonly clock: Clock,
  ) {}

  async list(by: Person, courseId: string): Promise<z.output<typeof peopleOfCourse>> {
    await this.access.require(by.id, courseId, 'people.see');
    const [members, invitations] = await Promise.all([
      this.memberships.membersOf(courseId),
      this.waysIn.openInvitationsOf(courseId, this.clock.now()),
    ]);
    return {
      members: members.map((member) => ({ ...member, joinedAt: member.joinedAt.toISOString() })),
      openInvitations: invitations.map(({ id, email, expiresAt }) => ({
        id,
        email,
        expiresAt: expiresAt.toISOString(),
      })),
    };
  }

  /** Ends a membership, and whatever the member has open. Members may always leave, the owner never. */
  async remove(by: Person, courseId: string, personId: string): Promise<void> {
    const ownRole = await this.access.require(by.id, courseId, 'course.see');
    const role = personId === by.id ? ownRole : await this.roleSeenBy(by, courseId, personId);
    if (role === 'owner') throw notPermitted('The owner stays in the course.');
    await this.memberships.remove(personId, courseId);
    this.ended.announce({ courseId, personId });
  }

  private async roleSeenBy(by: Person, courseId: string, personId: string): Promise<'coTeacher' | 'student' | 'owner'> {
    await this.access.require(by.id, courseId, 'student.remove');
    const role = await this.memberships.roleOf(personId, courseId);
    if (role === null) throw notFound('member');
    if (role !== 'student') await this.access.require(by.id, courseId, 'teacher.remove');
    return role;
  }
}
