import { Injectable } from '@nestjs/common';
import { LessThan } from 'typeorm';
import type { Columns } from '../database/columns.ts';
import { Database } from '../database/database.ts';
import { KeptAnswerEntity } from './kept-answer.entity.ts';

@Injectable()
export class KeptAnswerRepository {
  constructor(private readonly database: Database) {}

  /** Takes the key if nobody has it; otherwise what stands under it. */
  async claim(claim: Columns<KeptAnswerEntity>): Promise<KeptAnswerEntity | null> {
    const rows = await this.database.manager.query<unknown[]>(
      `INSERT INTO kept_answer (person_id, key, request_hash, made_at) VALUES ($1, $2, $3, $4)
       ON CONFLICT (person_id, key) DO NOTHING RETURNING key`,
      [claim.personId, claim.key, claim.requestHash, claim.madeAt],
    );
    if (rows.length === 1) return null;
    return this.database.manager.findOneBy(KeptAnswerEntity, { personId: claim.personId, key: claim.key });
  }

  async keep(personId: string, key: string, answer: object): Promise<void> {
    await this.database.manager.query('UPDATE kept_answer SET answer = $3 WHERE person_id = $1 AND key = $2', [
      personId,
      key,
      JSON.stringify(answer),
    ]);
  }

  async letGo(personId: string, key: string): Promise<void> {
    await this.database.manager.delete(KeptAnswerEntity, { personId, key });
  }

  async forgetBefore(moment: Date): Promise<void> {
    await this.database.manager.delete(KeptAnswerEntity, { madeAt: LessThan(moment) });
  }
}
