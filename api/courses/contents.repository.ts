import { Injectable } from '@nestjs/common';
import { Database } from '../database/database.ts';
import { CHANGED_SINCE_RELEASE, LOOSE_NOTES } from '../database/derived-columns.ts';

interface SongRow {
  readonly id: string;
  readonly title: string;
  readonly composer: string;
  readonly hasScore: boolean;
  readonly looseNoteCount: number | null;
}
interface LessonRow {
  readonly id: string;
  readonly songId: string;
  readonly title: string;
  readonly position: number;
  readonly releasedAt: string | null;
  readonly hasChangesSinceRelease: boolean;
}
interface ReleaseRow {
  readonly id: string;
  readonly lessonId: string;
  readonly title: string;
  readonly songTitle: string;
  readonly position: number;
  readonly releasedAt: string;
}

const instantOf = (column: string): string => `to_char(${column} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;

/** What lies in a course, read across songs, lessons and releases. */
@Injectable()
export class ContentsRepository {
  constructor(private readonly database: Database) {}

  songsOf(courseId: string): Promise<SongRow[]> {
    return this.database.manager.query<SongRow[]>(
      `SELECT song.id, song.title, song.composer,
              EXISTS (SELECT 1 FROM score_version WHERE song_id = song.id) AS "hasScore",
              CASE WHEN EXISTS (SELECT 1 FROM score_version WHERE song_id = song.id) THEN ${LOOSE_NOTES} END AS "looseNoteCount"
         FROM song WHERE song.course_id = $1 ORDER BY song.created_at, song.id`,
      [courseId],
    );
  }

  lessonsOf(courseId: string): Promise<LessonRow[]> {
    return this.database.manager.query<LessonRow[]>(
      `SELECT lesson.id, lesson.song_id AS "songId", lesson.title, lesson.position,
              (SELECT ${instantOf('max(release.released_at)')} FROM release WHERE release.lesson_id = lesson.id) AS "releasedAt",
              ${CHANGED_SINCE_RELEASE} AS "hasChangesSinceRelease"
         FROM lesson WHERE lesson.course_id = $1 AND lesson.retired_at IS NULL ORDER BY lesson.position, lesson.id`,
      [courseId],
    );
  }

  /** The latest release of each lesson, in course order. */
  releasesOf(courseId: string): Promise<ReleaseRow[]> {
    return this.database.manager.query<ReleaseRow[]>(
      `SELECT latest.id, lesson.id AS "lessonId", latest.title, latest.song_title AS "songTitle", lesson.position,
              ${instantOf('latest.released_at')} AS "releasedAt"
         FROM lesson
         JOIN LATERAL (SELECT * FROM release WHERE release.lesson_id = lesson.id ORDER BY number DESC LIMIT 1) AS latest ON true
        WHERE lesson.course_id = $1 AND lesson.retired_at IS NULL ORDER BY lesson.position, lesson.id`,
      [courseId],
    );
  }
}
