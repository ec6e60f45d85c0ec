import { Injectable } from '@nestjs/common';
import { IsNull, MoreThan } from 'typeorm';
import type { Columns } from '../database/columns.ts';
import { Database } from '../database/database.ts';
import { EnrolmentCodeEntity } from './enrolment-code.entity.ts';
import { InvitationEntity } from './invitation.entity.ts';

/** An invitation with what its page tells. */
export interface InvitationFound extends InvitationEntity {
  readonly courseTitle: string;
  readonly invitedByName: string;
}

@Injectable()
export class WaysInRepository {
  constructor(private readonly database: Database) {}

  async insertInvitation(invitation: Columns<InvitationEntity>): Promise<void> {
    await this.database.manager.insert(InvitationEntity, invitation);
  }

  /** Takes an invitation of the course away that nobody has taken up; tells whether there was one. */
  async removeInvitation(courseId: string, id: string): Promise<boolean> {
    const result = await this.database.manager.delete(InvitationEntity, { id, courseId, acceptedAt: IsNull() });
    return result.affected === 1;
  }

  async insertCode(code: Columns<EnrolmentCodeEntity>): Promise<void> {
    await this.database.manager.insert(EnrolmentCodeEntity, code);
  }

  async invitationWith(tokenHash: string): Promise<InvitationFound | null> {
    const rows = await this.database.manager.query<InvitationFound[]>(
      `SELECT invitation.id, invitation.course_id AS "courseId", invitation.email, invitation.token_hash AS "tokenHash",
              invitation.invited_by AS "invitedBy", invitation.made_at AS "madeAt", invitation.expires_at AS "expiresAt",
              invitation.accepted_at AS "acceptedAt", course.title AS "courseTitle", person.name AS "invitedByName"
         FROM invitation
         JOIN course ON course.id = invitation.course_id
         JOIN person ON person.id = invitation.invited_by
        WHERE invitation.token_hash = $1`,
      [tokenHash],
    );
    return rows[0] ?? null;
  }

  /** Uses the invitation up; tells whether it was still to be had. */
  async useInvitation(id: string, at: Date): Promise<boolean> {
    const result = await this.database.manager.update(
      InvitationEntity,
      { id, acceptedAt: IsNull() },
      { acceptedAt: at },
    );
    return result.affected === 1;
  }

  openInvitationsOf(courseId: string, now: Date): Promise<InvitationEntity[]> {
    return this.database.manager.find(InvitationEntity, {
      where: { courseId, acceptedAt: IsNull(), expiresAt: MoreThan(now) },
      order: { madeAt: 'ASC' },
    });
  }

  codeWith(codeHash: string): Promise<EnrolmentCodeEntity | null> {
    return this.database.manager.findOneBy(EnrolmentCodeEntity, { codeHash });
  }
}
