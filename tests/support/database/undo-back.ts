import type { DataSource } from 'typeorm';

/** Undoes migrations, the last first, until the one of that name is undone. */
export async function undoBack(source: DataSource, name: string): Promise<void> {
  const [last] = await source.query<{ name: string }[]>('SELECT name FROM migrations ORDER BY id DESC LIMIT 1');
  if (last === undefined) throw new Error(`There is no migration ${name} to undo.`);
  await source.undoLastMigration();
  if (last.name !== name) await undoBack(source, name);
}
