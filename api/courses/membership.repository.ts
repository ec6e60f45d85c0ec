import { Injectable } from '@nestjs/common';
import type { CourseRole } from '../../contract/index.ts';
import type { Columns } from '../database/columns.ts';
import { Database } from '../database/database.ts';
import { MembershipEntity } from './membership.entity.ts';

/** A member as told to teachers. */
export interface Member {
  readonly personId: string;
  readonly name: string;
  readonly role: CourseRole;
  readonly joinedAt: Date;
}

@Injectable()
export class MembershipRepository {
  constructor(private readonly database: Database) {}

  async roleOf(personId: string, courseId: string): Promise<CourseRole | null> {
    const membership = await this.database.manager.findOneBy(MembershipEntity, { personId, courseId });
    return membership?.role ?? null;
  }

  /** Adds a member, or leaves the role that is there already; tells which role holds now. */
  async join(membership: Columns<MembershipEntity>): Promise<CourseRole> {
    await this.database.manager
      .createQueryBuilder()
      .insert()
      .into(MembershipEntity)
      .values(membership)
      .orIgnore()
      .execute();
    return (await this.roleOf(membership.personId, membership.courseId)) ?? membership.role;
  }

  async changeRole(personId: string, courseId: string, role: CourseRole): Promise<void> {
    await this.database.manager.update(MembershipEntity, { personId, courseId }, { role });
  }

  async remove(personId: string, courseId: string): Promise<void> {
    await this.database.manager.delete(MembershipEntity, { personId, courseId });
  }

  membersOf(courseId: string): Promise<Member[]> {
    return this.database.manager.query<Member[]>(
      `SELECT membership.person_id AS "personId", person.name, membership.role, membership.joined_at AS "joinedAt"
         FROM membership JOIN person ON person.id = membership.person_id
        WHERE membership.course_id = $1
        ORDER BY membership.joined_at, person.name`,
      [courseId],
    );
  }
}
