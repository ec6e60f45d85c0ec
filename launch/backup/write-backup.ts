import { createHash, type Hash } from 'node:crypto';
import pg from 'pg';
import { to as copyTo } from 'pg-copy-streams';
import { ArchiveWriter, type Manifest } from './archive.ts';

const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;

async function tablesOf(client: pg.Client): Promise<Omit<Manifest['tables'][number], 'sha256'>[]> {
  const { rows } = await client.query<{ name: string; columns: string[] }>(
    `select c.relname as name, array_agg(a.attname::text order by a.attnum) as columns
       from pg_class c join pg_attribute a on a.attrelid = c.oid
      where c.relnamespace = 'public'::regnamespace and c.relkind = 'r' and a.attnum > 0 and not a.attisdropped and a.attgenerated = ''
      group by c.relname order by c.relname`,
  );
  const tables = [];
  for (const { name, columns } of rows) {
    const counted = await client.query<{ rows: string }>(`select count(*) as rows from ${quoted(name)}`);
    tables.push({ name, columns, rows: Number(counted.rows[0]?.rows ?? 0) });
  }
  return tables;
}

async function manifestOf(client: pg.Client, writtenAt: Date, tables: Manifest['tables']): Promise<Manifest> {
  const migrations = await client.query<{ name: string }>('select name from migrations order by id');
  const sequences = await client.query<{ name: string; value: string | null }>(
    "select sequencename::text as name, last_value::text as value from pg_sequences where schemaname = 'public' order by 1",
  );
  return {
    format: 'heddle-backup',
    schema: 1,
    writtenAt: writtenAt.toISOString(),
    migrations: migrations.rows.map((row) => row.name),
    tables,
    sequences: sequences.rows,
  };
}

/** Passes chunks on, and knows the hash of all that went by. */
async function* hashed(chunks: AsyncIterable<Uint8Array>, hash: Hash): AsyncIterable<Uint8Array> {
  for await (const chunk of chunks) {
    hash.update(chunk);
    yield chunk;
  }
}

async function addTables(client: pg.Client, archive: ArchiveWriter): Promise<Manifest['tables']> {
  const added: Manifest['tables'] = [];
  for (const table of await tablesOf(client)) {
    const statement = `copy ${quoted(table.name)} (${table.columns.map(quoted).join(', ')}) to stdout (format csv, header)`;
    const hash = createHash('sha256');
    const rows = client.query(copyTo(statement)) as AsyncIterable<Uint8Array>;
    await archive.add(`tables/${table.name}.csv`, hashed(rows, hash));
    added.push({ ...table, sha256: hash.digest('hex') });
  }
  return added;
}

/** Writes everything that the database holds, as of one moment, into one archive; others may go on working meanwhile. */
export async function writeBackup(databaseUrl: string, path: string, now: Date): Promise<Manifest> {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  try {
    await client.query('begin isolation level repeatable read read only');
    const archive = new ArchiveWriter(path);
    try {
      const tables = await addTables(client, archive);
      const manifest = await manifestOf(client, now, tables);
      await archive.add('manifest.json', [new TextEncoder().encode(JSON.stringify(manifest, null, 2))]);
      await archive.close();
      return manifest;
    } catch (error) {
      archive.discard();
      throw error;
    }
  } finally {
    await client.end();
  }
}
