import { Injectable } from '@nestjs/common';
import type { NamedMix } from '../../contract/index.ts';
import type { Columns } from '../database/columns.ts';
import { Database } from '../database/database.ts';
import { OwnMixesEntity } from './own-mixes.entity.ts';

/** Whose mixes, and for which lesson. */
export type OwnMixesOf = Pick<Columns<OwnMixesEntity>, 'personId' | 'lessonId'>;
/** Somebody's mixes at a version; version 0 before the first was kept. */
export type VersionedMixes = Pick<Columns<OwnMixesEntity>, 'version' | 'mixes'>;

@Injectable()
export class OwnMixesRepository {
  constructor(private readonly database: Database) {}

  async of(whose: OwnMixesOf): Promise<VersionedMixes> {
    return (await this.database.manager.findOneBy(OwnMixesEntity, whose)) ?? { version: 0, mixes: [] };
  }

  /** Writes the mixes if the version is still the one that was seen; tells whether it was. */
  replace(whose: OwnMixesOf, mixes: NamedMix[], seenVersion: number): Promise<boolean> {
    return this.database.transaction(async () => {
      await this.database.manager.query('SELECT id FROM person WHERE id = $1 FOR UPDATE', [whose.personId]);
      const { version } = await this.of(whose);
      if (version !== seenVersion) return false;
      const row = { ...whose, version: version + 1, mixes };
      await this.database.manager.upsert(OwnMixesEntity, row, ['personId', 'lessonId']);
      return true;
    });
  }
}
