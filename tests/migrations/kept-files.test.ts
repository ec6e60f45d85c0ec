import { DataSource } from 'typeorm';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { dataSourceOptions } from '../../api/database/data-source-options.ts';
import { startApp } from '../support/app.ts';
import { createTestDatabase, type TestDatabase } from '../support/database/test-database.ts';
import { undoBack } from '../support/database/undo-back.ts';
import { twoGuitars } from '../support/two-guitars.ts';

const first = Buffer.from(twoGuitars());
const other = Buffer.from(twoGuitars().replace('Low guitar', 'Bass guitar'));

let database: TestDatabase;
let source: DataSource;
let songs: readonly string[];
beforeAll(async () => {
  database = await createTestDatabase();
  const api = await startApp({ databaseUrl: database.url });
  const { person } = await api.person('Maren');
  const { id: courseId } = await api.desk.courses.make(person, { title: 'Old', summary: '' });
  const songWith = async (...files: readonly Buffer[]): Promise<string> => {
    const { id } = await api.desk.songs.make(person, courseId, { title: 'Old', composer: '' });
    for (const bytes of files) await api.desk.scores.upload(person, id, { fileName: 'two.musicxml', bytes });
    return id;
  };
  songs = [await songWith(first, other, first), await songWith(first)];
  await api.app.close();
  source = await new DataSource(dataSourceOptions(database.url)).initialize();
});
afterAll(async () => {
  await source.destroy();
  await database.drop();
});

interface Row {
  readonly songId: string;
  readonly bytes: Buffer;
}

const kept = async (): Promise<readonly Row[]> =>
  source.query<Row[]>('SELECT song_id AS "songId", bytes FROM score_file ORDER BY song_id, length(bytes), hash');
const ofVersions = async (): Promise<readonly Buffer[]> =>
  (
    await source.query<Row[]>(
      `SELECT bytes FROM score_version JOIN score_file ON score_file.song_id = score_version.song_id AND hash = file_hash
        ORDER BY score_version.song_id, version`,
    )
  ).map(({ bytes }) => bytes);

it('the bytes of each file are kept once a song; every version has its own before and after', async () => {
  expect((await kept()).map(({ songId, bytes }) => [songs.indexOf(songId), bytes.length])).toEqual([
    [0, first.length],
    [0, other.length],
    [1, first.length],
  ]);
  const files = await kept();
  await undoBack(source, 'KeepScoreFilesOnce1795619900000');
  const rows = await source.query<{ original: Buffer }[]>(
    'SELECT original FROM score_version ORDER BY song_id, version',
  );
  expect(rows.map(({ original }) => original)).toEqual([first, other, first, first]);
  await source.runMigrations();
  expect(await kept()).toEqual(files);
  expect(await ofVersions()).toEqual([first, other, first, first]);
});

it('a song that goes takes its files with it', async () => {
  await source.query('DELETE FROM song WHERE id = $1', [songs[0]]);
  expect((await kept()).map(({ songId }) => songId)).toEqual([songs[1]]);
  expect(await ofVersions()).toEqual([first]);
});
