import { Injectable } from '@nestjs/common';
import type { z } from 'zod';
import type { attempt, attemptDraft, attemptsOfRelease, progressOfCourse } from '../../contract/index.ts';
import { Clock } from '../clock/clock.ts';
import { CourseAccess } from '../courses/course-access.ts';
import { MembershipRepository } from '../courses/membership.repository.ts';
import type { Columns } from '../database/columns.ts';
import { DomainError } from '../errors/domain-error.ts';
import { LessonAccess } from '../lessons/lesson-access.ts';
import type { Person } from '../people/person.ts';
import type { AttemptEntity } from './attempt.entity.ts';
import { AttemptRepository, type LatestTry } from './attempt.repository.ts';

type Progress = z.output<typeof progressOfCourse>;

@Injectable()
export class PracticeService {
  constructor(
    private readonly attempts: AttemptRepository,
    private readonly lessonAccess: LessonAccess,
    private readonly courseAccess: CourseAccess,
    private readonly memberships: MembershipRepository,
    private readonly clock: Clock,
  ) {}

  /** Keeps one try. **Errors** `body-invalid` for a step that the release has not. */
  async record(by: Person, releaseId: string, draft: z.output<typeof attemptDraft>): Promise<z.output<typeof attempt>> {
    const release = await this.lessonAccess.requireRelease(by, releaseId, 'attempt.make');
    const isThere = release.pathSteps.some(
      (step) => step.stepId === draft.stepId && step.pathStepId === draft.pathStepId,
    );
    if (!isThere) throw new DomainError('body-invalid', 'This lesson has no such step.');
    const made: Columns<AttemptEntity> = {
      id: this.clock.newId(),
      releaseId,
      personId: by.id,
      ...draft,
      at: this.clock.now(),
    };
    await this.attempts.insert(made);
    return told(made);
  }

  /** One's own tries. */
  async own(by: Person, releaseId: string): Promise<z.output<typeof attemptsOfRelease>> {
    await this.lessonAccess.requireRelease(by, releaseId, 'release.read');
    return { attempts: (await this.attempts.of(by.id, releaseId)).map(told) };
  }

  async progress(by: Person, courseId: string): Promise<Progress> {
    await this.courseAccess.require(by.id, courseId, 'progress.see');
    const [members, lessons, tries] = await Promise.all([
      this.memberships.membersOf(courseId),
      this.attempts.lessonsOf(courseId),
      this.attempts.latestOf(courseId),
    ]);
    const students = members.filter(({ role }) => role === 'student');
    return {
      students: students.map(({ personId, name, joinedAt }) => ({ personId, name, joinedAt: joinedAt.toISOString() })),
      lessons,
      progress: gathered(tries),
    };
  }
}

const told = ({ id, stepId, pathStepId, outcome, at }: Columns<AttemptEntity>): z.output<typeof attempt> => ({
  id,
  stepId,
  pathStepId,
  outcome,
  at: at.toISOString(),
});

function gathered(tries: readonly LatestTry[]): Progress['progress'] {
  const cells = new Map<string, Progress['progress'][number]>();
  for (const { personId, lessonId, stepId, pathStepId, outcome, at, count } of tries) {
    const key = `${personId} ${lessonId}`;
    const cell = cells.get(key) ?? { personId, lessonId, attemptCount: 0, latestAt: at.toISOString(), latest: [] };
    const latestAt = at.toISOString() > cell.latestAt ? at.toISOString() : cell.latestAt;
    cells.set(key, {
      ...cell,
      attemptCount: cell.attemptCount + count,
      latestAt,
      latest: [...cell.latest, { stepId, pathStepId, outcome }],
    });
  }
  return [...cells.values()];
}
