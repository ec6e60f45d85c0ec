import toneMidi from '@tonejs/midi';
import { strFromU8, unzipSync } from 'fflate';
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dyeColours } from '../../api/exports/dye-colours.data.ts';
import { exportNotes } from '../../contract/index.ts';
import { readNormalised, readScoreFile } from '../../music/index.ts';
import { startApp, type SignedIn, type TestApp } from '../support/app.ts';
import { makeCourse, songOf, splitOf, type TestCourse } from '../support/course.ts';

const { Midi } = toneMidi;

let api: TestApp;
let course: TestCourse;
beforeAll(async () => {
  api = await startApp();
  course = await makeCourse(api);
});
afterAll(() => api.stop());

const at = (query: string, songId = course.songId): string => `/api/songs/${songId}/export?${query}`;

interface File {
  readonly name: string;
  readonly type: string | null;
  readonly bytes: Uint8Array;
  readonly notes: readonly string[];
}

/** A file as a browser would save it. */
async function fileOf(query: string, { as }: SignedIn = course.owner): Promise<File> {
  const response = await fetch(api.origin + at(query), { headers: { cookie: as.cookie } });
  expect(response.status).toBe(200);
  const name = /filename\*=UTF-8''(.+)$/.exec(response.headers.get('content-disposition') ?? '')?.[1] ?? '';
  return {
    name: decodeURIComponent(name),
    type: response.headers.get('content-type'),
    bytes: new Uint8Array(await response.arrayBuffer()),
    notes: exportNotes.parse(JSON.parse(decodeURIComponent(response.headers.get('heddle-notes') ?? ''))),
  };
}

const countOf = (bytes: Uint8Array): { notes: number; parts: number; bars: number } => {
  const result = readScoreFile(bytes, { fileName: 'x', firstNoteNumber: 1, firstBarNumber: 1 });
  if (!result.ok) throw new Error('what was exported cannot be read');
  const { notes, parts, bars } = result.value.score;
  return { notes: notes.length, parts: parts.length, bars: bars.length };
};

describe('a file of a song', () => {
  it('holds every line as a part of its own, with all notes', async () => {
    const { lines } = await splitOf(course);
    const { name, type, bytes, notes } = await fileOf('what=lines&format=musicxml');
    expect([name.replace(/\d+/, 'N'), type]).toEqual([
      'song-N-lines.musicxml',
      'application/vnd.recordare.musicxml+xml',
    ]);
    expect(countOf(bytes)).toEqual({ notes: 8, parts: lines.length, bars: 2 });
    expect(notes).toEqual([]);
  });

  it('holds one line, an excerpt, or both, packed where that is asked', async () => {
    const { lines } = await splitOf(course);
    const score = readNormalised((await course.owner.as.get(`/api/songs/${course.songId}/score`)).text).value;
    const second = score.bars[1]!.id;
    const excerpt = `from=${second}%2B0/1&to=${second}%2B4/1`;
    const one = await fileOf(`what=line&line=${lines[0]!.id}&format=mxl`);
    expect(one.name).toMatch(/\.mxl$/);
    expect(countOf(one.bytes)).toMatchObject({ parts: 1, bars: 2 });
    expect(countOf((await fileOf(`what=lines&format=musicxml&${excerpt}`)).bytes)).toMatchObject({ notes: 4, bars: 1 });
  });

  it('is a zip of everything, with the file that was uploaded and a list of what lies in it', async () => {
    const { bytes, name } = await fileOf('what=lines&format=archive');
    const { lines } = await splitOf(course);
    const files = unzipSync(bytes);
    const names = Object.keys(files);
    expect(name).toMatch(/^song-\d+\.zip$/);
    expect(names).toEqual(
      expect.arrayContaining(['all-lines.musicxml', 'all-lines.mxl', 'contents.txt', 'as-it-came/tiny.musicxml']),
    );
    expect(names.filter((path) => /^lines\/.+\.musicxml$/.test(path))).toHaveLength(lines.length);
    const told = strFromU8(files['contents.txt']!);
    for (const path of names.filter((one) => !/^(contents|as-it-came)/.test(one))) expect(told).toContain(`${path}: `);
  });

  it('is the score itself with its lines’ colours, or MIDI with a track for each line', async () => {
    const { lines } = await splitOf(course);
    const score = strFromU8((await fileOf('what=score&format=musicxml')).bytes);
    const used = new Set([...score.matchAll(/ color="(#[0-9A-Fa-f]{6})"/g)].map(([, colour]) => colour?.toLowerCase()));
    expect(used).toEqual(new Set(lines.map(({ dye }) => dyeColours[dye])));
    const midi = await fileOf('what=lines&format=midi&repeats=unfolded');
    expect([midi.type, midi.name.endsWith('.mid')]).toEqual(['audio/midi', true]);
    const { tracks } = new Midi(midi.bytes);
    expect(tracks.filter(({ notes }) => notes.length > 0).map(({ name }) => name)).toEqual(
      lines.map(({ name }) => name),
    );
    expect(tracks.flatMap(({ notes }) => notes)).toHaveLength(8);
    expect(countOf((await fileOf('what=lines&format=abc')).bytes)).toMatchObject({ notes: 8, bars: 2 });
  });

  it('is set for an ensemble, and says who was moved or cannot play a note', async () => {
    const { bytes, notes } = await fileOf('what=ensemble&ensemble=stringQuartet&format=musicxml');
    expect(strFromU8(bytes)).toMatch(/<part-name>[^<]*Violin I/);
    // E4 is above a violin's lowest string, E2 below a viola's and above a cello's (open strings; from memory).
    expect(notes.join(' ')).not.toContain('undefined');
  });

  it('names what was left out: notes on no line', async () => {
    const own = await makeCourse(api);
    const { revision, marks } = await splitOf(own);
    const [[note, mark] = ['', null]] = marks;
    const change = {
      note,
      before: { lines: mark?.lines, from: 'proposal', confidence: mark?.confidence ?? null },
      after: { lines: [], from: 'person', confidence: null },
    };
    (
      await own.owner.as.post(`/api/songs/${own.songId}/split/operations`, {
        id: 'loosen-1',
        baseRevision: revision,
        operation: { kind: 'markNotes', changes: [change] },
      })
    ).expect(201);
    const response = await own.owner.as.get(at('what=lines&format=musicxml', own.songId));
    expect(exportNotes.parse(JSON.parse(decodeURIComponent(response.headers.get('heddle-notes') ?? '')))).toEqual([
      'One note is on no line and was left out.',
    ]);
  });
});

it('colours documents with the dyes that the screen shows on paper', () => {
  const tokens = readFileSync('web/ui/tokens.css', 'utf8');
  const shown = Object.keys(dyeColours).map((dye) => [
    dye,
    new RegExp(`--${dye}: light-dark\\((#\\w+)`).exec(tokens)?.[1],
  ]);
  expect(Object.fromEntries(shown)).toEqual(dyeColours);
});

describe('a request for a file', () => {
  it.each([
    ['a kind that is not made', 'what=lines&format=pdf'],
    ['nothing in particular', ''],
    ['one line without saying which', 'what=line&format=musicxml'],
    ['an ensemble without saying which', 'what=ensemble&format=musicxml'],
    ['an excerpt with one end', 'what=lines&format=musicxml&from=b1%2B0/1'],
    ['a place that is none', 'what=lines&format=musicxml&from=b1&to=b2'],
    ['bars that are not there', 'what=lines&format=musicxml&from=b99%2B0/1&to=b99%2B4/1'],
    ['an end before its beginning', 'what=lines&format=musicxml&from=b2%2B0/1&to=b1%2B4/1'],
  ])('for %s is refused in a sentence', async (_, query) => {
    (await course.owner.as.get(at(query))).refused(400, 'body-invalid');
  });

  it('is refused where the line or the score is not there', async () => {
    (await course.owner.as.get(at('what=line&line=nobody&format=musicxml'))).refused(404, 'not-found');
    const { id } = await api.desk.songs.make(course.owner.person, course.courseId, { title: 'Silent', composer: '' });
    const { detail } = (await course.owner.as.get(at('what=lines&format=mxl', id))).refused(404, 'not-found');
    expect(detail).toContain('no score yet');
  });

  it('is refused to students, and to strangers the song is not there at all', async () => {
    (await course.student.as.get(at('what=lines&format=mxl'))).refused(403, 'not-permitted');
    (await (await makeCourse(api)).owner.as.get(at('what=lines&format=mxl'))).refused(404, 'not-found');
    (await api.stranger().get(at('what=lines&format=mxl'))).refused(401, 'not-signed-in');
  });

  it('gets a name that is safe for headers and file systems', async () => {
    const own = await makeCourse(api);
    await own.owner.as.send(
      'PATCH',
      `/api/songs/${own.songId}`,
      { title: '../"Ärger"\\; x=1/ ⟂' },
      { 'if-match': '*' },
    );
    expect((await songOf(own)).title).toContain('Ärger');
    const response = await own.owner.as.get(at('what=lines&format=musicxml', own.songId));
    expect(response.expect(200).headers.get('content-disposition')).toBe(
      `attachment; filename="arger-x-1-lines.musicxml"; filename*=UTF-8''%C3%A4rger-x-1-lines.musicxml`,
    );
  });
});
