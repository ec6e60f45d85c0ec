import { Injectable } from '@nestjs/common';
import type { z } from 'zod';
import type { scoreVersion } from '../../contract/index.ts';
import type { ScoreFacts } from '../../music/index.ts';
import type { Columns } from '../database/columns.ts';
import { Database } from '../database/database.ts';
import { ScoreVersionEntity } from './score-version.entity.ts';

/** A version without its large columns. */
export type ScoreVersionSummary = Omit<ScoreVersionEntity, 'original' | 'normalisedXml' | 'noteIds'>;

/** A version as it is told over the wire, where the schema holds it to its shape. */
export type ToldVersion = Omit<z.input<typeof scoreVersion>, 'facts'> & { readonly facts: ScoreFacts };

export const toldVersion = (version: ScoreVersionSummary): ToldVersion => ({
  id: version.id,
  version: version.version,
  fileName: version.fileName,
  byteCount: version.byteCount,
  uploadedAt: version.uploadedAt.toISOString(),
  facts: version.facts,
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

  async normalisedXmlOf(versionId: string): Promise<string | null> {
    const found = await this.database.manager.findOne(ScoreVersionEntity, {
      where: { id: versionId },
      select: { id: true, normalisedXml: true },
    });
    return found?.normalisedXml ?? null;
  }

  async originalOf(versionId: string): Promise<Buffer | null> {
    const found = await this.database.manager.findOne(ScoreVersionEntity, {
      where: { id: versionId },
      select: { id: true, original: true },
    });
    return found?.original ?? null;
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
