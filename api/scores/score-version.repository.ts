import { Injectable } from '@nestjs/common';
import type { z } from 'zod';
import type { scoreVersion } from '../../contract/index.ts';
import type { ScoreFacts } from '../../music/index.ts';
import type { Columns } from '../database/columns.ts';
import { Database } from '../database/database.ts';
import { ScoreVersionEntity } from './score-version.entity.ts';

/** A version without its large columns. */
export type ScoreVersionSummary = Omit<ScoreVersionEntity, 'normalisedXml' | 'noteIds'>;

/** A version as it is told over the wire, where the schema holds it to its shape. */
export type ToldVersion = Omit<z.input<typeof scoreVersion>, 'facts'> & { readonly facts: ScoreFacts };

export const toldVersion = (version: ScoreVersionSummary): ToldVersion => ({
  id: version.id,
  version: version.version,
  fileName: version.fileName,
  byteCount: version.byteCount,
  uploadedAt: version.uploadedAt.toISOString(),
  facts: version.facts,
  reading: version.reading,
  issues: version.issues,
});

@Injectable()
export class ScoreVersionRepository {
  constructor(private readonly database: Database) {}

  async insert(version: Columns<ScoreVersionEntity>): Promise<void> {
    await this.database.manager.insert(ScoreVersionEntity, version);
  }

  latestOf(songId: string): Promise<ScoreVersionSummary | null> {
    return this.database.manager.findOne(ScoreVersionEntity, { where: { songId }, order: { version: 'DESC' } });
  }

  /** The latest version that was read from the same file as another one, and of the same tune where it has several. */
  async sameMusicAs(versionId: string, tune: number | null): Promise<string | null> {
    const rows = await this.database.manager.query<{ id: string }[]>(
      `SELECT alike.id FROM score_version AS known
         JOIN score_version AS alike ON alike.song_id = known.song_id AND alike.file_hash = known.file_hash
        WHERE known.id = $1 AND (alike.reading -> 'chosen' ->> 'tune') IS NOT DISTINCT FROM $2::text
        ORDER BY alike.version DESC LIMIT 1`,
      [versionId, tune === null ? null : String(tune)],
    );
    return rows[0]?.id ?? null;
  }

  async normalisedXmlOf(versionId: string): Promise<string | null> {
    const found = await this.database.manager.findOne(ScoreVersionEntity, {
      where: { id: versionId },
      select: { id: true, normalisedXml: true },
    });
    return found?.normalisedXml ?? null;
  }

  /** The notes of a version, in all its parts or in some. */
  async noteIdsOf(versionId: string, parts?: readonly string[]): Promise<readonly string[]> {
    const found = await this.database.manager.findOne(ScoreVersionEntity, {
      where: { id: versionId },
      select: { id: true, noteIds: true },
    });
    return (found?.noteIds ?? []).filter(({ part }) => parts?.includes(part) ?? true).flatMap(({ notes }) => notes);
  }
}
