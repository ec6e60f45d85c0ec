import { Injectable } from '@nestjs/common';
import { CourseAccess } from '../courses/course-access.ts';
import type { Permission } from '../courses/permissions.ts';
import { notFound } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import type { SongEntity } from './song.entity.ts';
import { SongRepository } from './song.repository.ts';

/** The check that every method about one song begins with. */
@Injectable()
export class SongAccess {
  constructor(
    private readonly songs: SongRepository,
    private readonly access: CourseAccess,
  ) {}

  /** The song. **Errors** `not-found` for a stranger to its course, `not-permitted` for a member without the permission. */
  async require(by: Pick<Person, 'id'>, songId: string, permission: Permission): Promise<SongEntity> {
    const song = await this.songs.withId(songId);
    if (song === null) throw notFound('song');
    await this.access.require(by.id, song.courseId, permission, 'song');
    return song;
  }
}
