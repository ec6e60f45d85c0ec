import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import pg from 'pg';
import { from as copyFrom } from 'pg-copy-streams';
import { StartFailure } from '../failure.ts';
import type { Archive, Manifest } from './archive.ts';

const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;

async function refuseOtherMigrations(client: pg.Client, manifest: Manifest): Promise<void> {
  const { rows } = await client.query<{ name: string }>('select name from migrations order by id');
  const present = rows.map((row) => row.name);
  if (present.join() === manifest.migrations.join()) return;
  throw new StartFailure(
    `The backup was written by a Heddle whose last migration is ${manifest.migrations.at(-1) ?? 'none'}, and this database is at ${present.at(-1) ?? 'none'}. Restore with the version that wrote it, then upgrade. Nothing was changed.`,
  );
}

async function refuseFilled(client: pg.Client): Promise<void> {
  const { rows } = await client.query('select 1 from person limit 1');
  if (rows.length > 0)
    throw new StartFailure(
      'The database already holds people and courses; a backup is restored into an empty one only. Nothing was changed.',
    );
}

/** Refuses a target that is filled or another version's, before anything is changed in it; a database without tables is fit. **Errors** `StartFailure`. */
export async function refuseUnfit(databaseUrl: string, { manifest }: Archive): Promise<void> {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  try {
    const { rows } = await client.query<{ isMade: boolean }>(
      `select to_regclass('migrations') is not null as "isMade"`,
    );
    if (rows[0]?.isMade !== true) return;
    await refuseOtherMigrations(client, manifest);
    await refuseFilled(client);
  } finally {
    await client.end();
  }
}

/** Fills an empty, migrated database from an archive, wholly or not at all. **Errors** `StartFailure` that says why not. */
export async function restoreBackup(databaseUrl: string, { manifest, files }: Archive): Promise<Manifest> {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  try {
    await refuseOtherMigrations(client, manifest);
    await refuseFilled(client);
    await client.query('begin');
    await client.query('set local session_replication_role = replica'); // references are whole in the archive; order does not matter
    const filled = manifest.tables.filter(({ name }) => name !== 'migrations');
    if (filled.length > 0) await client.query(`truncate ${filled.map(({ name }) => quoted(name)).join(', ')}`);
    for (const { name, columns } of filled) {
      const csv = files[`tables/${name}.csv`];
      if (csv === undefined) throw new StartFailure(`The backup lacks the table ${name}. Nothing was changed.`);
      const statement = `copy ${quoted(name)} (${columns.map(quoted).join(', ')}) from stdin (format csv, header)`;
      await pipeline(Readable.from([Buffer.from(csv)]), client.query(copyFrom(statement)));
    }
    for (const { name, value } of manifest.sequences) {
      if (value !== null) await client.query('select setval($1::regclass, $2)', [quoted(name), value]);
    }
    await client.query('commit');
    return manifest;
  } finally {
    await client.end();
  }
}
