import { AsyncLocalStorage } from 'node:async_hooks';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';

/** The door to Postgres for repositories, and transactions for services. */
@Injectable()
export class Database {
  private readonly running = new AsyncLocalStorage<EntityManager>();

  constructor(private readonly source: DataSource) {}

  /** The manager of the running transaction, else of the pool. */
  get manager(): EntityManager {
    return this.running.getStore() ?? this.source.manager;
  }

  /** Runs `work` in one transaction; everything that repositories do within it commits or fails together. */
  async transaction<Value>(work: () => Promise<Value>): Promise<Value> {
    if (this.running.getStore() !== undefined) return work();
    return this.source.transaction((manager) => this.running.run(manager, work));
  }

  /** Runs `read` against one unchanging view of the data. */
  async snapshot<Value>(read: () => Promise<Value>): Promise<Value> {
    if (this.running.getStore() !== undefined) return read();
    return this.source.transaction('REPEATABLE READ', (manager) => this.running.run(manager, read));
  }

  /** Resolves when Postgres answers. */
  async ping(): Promise<void> {
    await this.source.query('SELECT 1');
  }
}
