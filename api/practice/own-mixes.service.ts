import { Injectable } from '@nestjs/common';
import type { OwnMixes } from '../../contract/index.ts';
import { DomainError } from '../errors/domain-error.ts';
import { LessonAccess } from '../lessons/lesson-access.ts';
import type { Person } from '../people/person.ts';
import { OwnMixesRepository, type VersionedMixes } from './own-mixes.repository.ts';

/** The mixes that somebody keeps for a lesson; nobody else reads them, and a new release of the lesson finds them again. */
@Injectable()
export class OwnMixesService {
  constructor(
    private readonly own: OwnMixesRepository,
    private readonly access: LessonAccess,
  ) {}

  async of(by: Person, releaseId: string): Promise<VersionedMixes> {
    const { lessonId } = await this.access.requireRelease(by, releaseId, 'release.read');
    return this.own.of({ personId: by.id, lessonId });
  }

  /** **Errors** `changed-meanwhile` where they were changed elsewhere since `seenVersion`. */
  async replace(by: Person, releaseId: string, { mixes }: OwnMixes, seenVersion: number): Promise<VersionedMixes> {
    const { lessonId } = await this.access.requireRelease(by, releaseId, 'mixes.keep');
    const whose = { personId: by.id, lessonId };
    if (!(await this.own.replace(whose, mixes, seenVersion))) {
      throw new DomainError(
        'changed-meanwhile',
        'Your mixes were changed somewhere else meanwhile. Nothing was written; look at them again.',
      );
    }
    return this.own.of(whose);
  }
}
