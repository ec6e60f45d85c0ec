import { DataSource } from 'typeorm';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { dataSourceOptions } from '../../api/database/data-source-options.ts';
import { startApp } from '../support/app.ts';
import { createTestDatabase, type TestDatabase } from '../support/database/test-database.ts';
import { twoGuitars } from '../support/two-guitars.ts';
import { undoBack } from '../support/database/undo-back.ts';

let database: TestDatabase;
let source: DataSource;
beforeAll(async () => {
  database = await createTestDatabase();
  const api = await startApp({ databaseUrl: database.url });
  const { person } = await api.person('Maren');
  const { id: courseId } = await api.desk.courses.make(person, { title: 'Old', summary: '' });
  const { id: songId } = await api.desk.songs.make(person, courseId, { title: 'Old', composer: '' });
  await api.desk.scores.upload(person, songId, { fileName: 'two.musicxml', bytes: Buffer.from(twoGuitars()) });
  await api.app.close();
  source = await new DataSource(dataSourceOptions(database.url)).initialize();
});
afterAll(async () => {
  await source.destroy();
  await database.drop();
});

const chosen = async (): Promise<unknown> => {
  const [row] = await source.query<{ chosen: unknown }[]>(`SELECT reading -> 'chosen' AS chosen FROM score_version`);
  return row?.chosen;
};
const choose = (choice: object): Promise<unknown> =>
  source.query(`UPDATE score_version SET reading = jsonb_set(reading, '{chosen}', $1::jsonb)`, [
    JSON.stringify(choice),
  ]);

it('what was chosen for a whole file becomes the choice of each part that has one, and back', async () => {
  const nothing = { tune: null, grid: null };
  await undoBack(source, 'ChooseSoundingByPart1795619890000');
  expect(await chosen()).toEqual({ ...nothing, octave: null, capo: null });
  await choose({ ...nothing, octave: -1, capo: 'shapes' });
  await source.runMigrations();
  expect(await chosen()).toEqual({
    ...nothing,
    sounding: [
      { part: 'P1', octave: -1, capo: null },
      { part: 'P2', octave: -1, capo: 'shapes' },
    ],
  });
  await choose({ ...nothing, sounding: [{ part: 'P2', octave: null, capo: 'shapes' }] });
  await undoBack(source, 'ChooseSoundingByPart1795619890000');
  expect(await chosen()).toEqual({ ...nothing, octave: null, capo: 'shapes' });
  await choose({ ...nothing, octave: null, capo: null });
  await source.runMigrations();
  expect(await chosen()).toEqual({ ...nothing, sounding: [] });
});
