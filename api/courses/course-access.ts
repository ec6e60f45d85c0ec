import { Injectable } from '@nestjs/common';
import type { CourseRole } from '../../contract/index.ts';
import { notFound, notPermitted } from '../errors/domain-error.ts';
import { MembershipRepository } from './membership.repository.ts';
import { mayDo, type Permission } from './permissions.ts';

const refusals: Readonly<Record<CourseRole, string>> = {
  owner: 'This cannot be done by the owner of the course.',
  coTeacher: 'Only the owner of the course may do this.',
  student: 'Only the teachers of the course may do this.',
};

/** Passes where a role includes a permission. **Errors** `not-permitted`. */
export function requireOf(role: CourseRole, permission: Permission): void {
  if (!mayDo(role, permission)) throw notPermitted(refusals[role]);
}

/** The check that every service method begins with. */
@Injectable()
export class CourseAccess {
  constructor(private readonly memberships: MembershipRepository) {}

  /** The person's role. **Errors** `not-found` for a stranger to the course, `not-permitted` for a member without the permission. */
  async require(personId: string, courseId: string, permission: Permission, what = 'course'): Promise<CourseRole> {
    const role = await this.memberships.roleOf(personId, courseId);
    if (role === null) throw notFound(what);
    requireOf(role, permission);
    return role;
  }
}
