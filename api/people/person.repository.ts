import { Injectable } from '@nestjs/common';
import { Database } from '../database/database.ts';
import type { Person } from './person.ts';
import { PersonEntity } from './person.entity.ts';

@Injectable()
export class PersonRepository {
  constructor(private readonly database: Database) {}

  async withEmail(email: string): Promise<Person | null> {
    return this.database.manager.findOne(PersonEntity, {
      where: { email: email.toLowerCase() },
      select: { id: true, name: true, email: true },
    });
  }
}
