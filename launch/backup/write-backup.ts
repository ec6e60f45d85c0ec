import pg from 'pg';
import { to as copyTo } from 'pg-copy-streams';
import { ArchiveWriter, type Manifest } from './archive.ts';

const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;

async function tablesOf(client: pg.Client): Promise<Manifest['tables']> {
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

async function manifestOf(client: pg.Client, writtenAt: Date): Promise<Manifest> {
  const migrations = await client.query<{ name: string }>('select name from migrations order by id');
  const sequences = await client.query<{ name: string; value: string | null }>(
    "select sequencename::text as name, last_value::text as value from pg_sequences where schemaname = 'public' order by 1",
  );
  return {
    format: 'heddle-backup',
    schema: 1,
    writtenAt: writtenAt.toISOString(),
    migrations: migrations.rows.map((row) => row.name),
    tables: await tablesOf(client),
    sequences: sequences.rows,
  };
}

/** Writes everything that the database holds, as of one moment, into one archive; others may go on working meanwhile. */
export async function writeBackup(databaseUrl: string, path: string, now: Date): Promise<Manifest> {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  try {
    await client.query('begin isolation level repeatable read read only');
    const manifest = await manifestOf(client, now);
    const archive = new ArchiveWriter(path);
    await archive.add('manifest.json', [new TextEncoder().encode(JSON.stringify(manifest, null, 2))]);
    for (const { name, columns } of manifest.tables) {
      const statement = `copy ${quoted(name)} (${columns.map(quoted).join(', ')}) to stdout (format csv, header)`;
      await archive.add(`tables/${name}.csv`, client.query(copyTo(statement)) as AsyncIterable<Uint8Array>);
    }
    await archive.close();
    await client.query('commit');
    return manifest;
  } finally {
    await client.end();
  }
}
