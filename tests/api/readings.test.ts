import toneMidi from '@tonejs/midi';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { readingChoice, scoreFingering, scoreVersion, songDetail, splitSnapshot } from '../../contract/index.ts';
import { Database } from '../../api/database/database.ts';
import { startApp, type TestApp } from '../support/app.ts';
import type { Answer } from '../support/caller.ts';
import { makeCourse, type TestCourse } from '../support/course.ts';
import { twoGuitars } from '../support/two-guitars.ts';

let api: TestApp;
let course: TestCourse;
beforeAll(async () => {
  api = await startApp();
  course = await makeCourse(api);
});
afterAll(() => api.stop());

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

const abc = `X:3
T:The Stile
M:3/4
L:1/4
K:G
G A B|d2 z|]

X:7
T:The Gate
M:2/4
L:1/4
K:C
c e|g2|]
`;

const tab = `e|-0-1-3---|-0-------|
B|---------|---------|
G|---------|---------|
D|---------|---------|
A|---------|-0-------|
E|---------|---------|
`;

/** Written by another library: eight pairs of a long and a short note in the time of triplets, on a steel guitar. */
function pairs(): Uint8Array {
  const midi = new toneMidi.Midi();
  midi.header.setTempo(100);
  midi.header.timeSignatures.push({ ticks: 0, timeSignature: [4, 4] });
  const track = midi.addTrack();
  track.instrument.number = 25;
  const quarter = midi.header.ppq;
  for (let index = 0; index < 16; index += 1) {
    const ticks = quarter * (index >> 1) + (index % 2) * ((quarter * 2) / 3);
    track.addNote({ midi: 60 + (index % 5), ticks, durationTicks: index % 2 === 0 ? (quarter * 2) / 3 : quarter / 3 });
  }
  return midi.toArray();
}

interface Loaded {
  readonly at: string;
  readonly first: z.output<typeof scoreVersion>;
}

/** A tune for a guitar and one for a flute. */
const fretted = ['Guitar', 'Flute']
  .map((name, index) => `X:${index + 1}\nM:4/4\nL:1/4\nK:C\nV:1 name="${name}"\nEGce|\n`)
  .join('\n');

async function loaded(name: string, bytes: Uint8Array): Promise<Loaded> {
  const { id } = (await course.owner.as.post(`/api/courses/${course.courseId}/songs`, { title: name }))
    .expect(201)
    .as(songDetail);
  const at = `/api/songs/${id}`;
  return { at, first: (await course.owner.as.upload(`${at}/score`, name, bytes)).expect(201).as(scoreVersion) };
}

const songAt = async (at: string) => (await course.owner.as.get(at)).expect(200).as(songDetail);
const splitAt = async (at: string) => (await course.owner.as.get(`${at}/split`)).expect(200).as(splitSnapshot);
const noteIdsAt = async (at: string): Promise<string[]> =>
  Array.from(
    (await course.owner.as.get(`${at}/score`)).expect(200).text.matchAll(/<note\b[^>]*?\sid="(n\d+)"/g),
    (match) => match[1] ?? '',
  );

async function read(at: string, choice: z.input<typeof readingChoice>): Promise<Answer> {
  const { version } = await songAt(at);
  return course.owner.as.post(`${at}/score/reading`, choice, { 'if-match': `"${version}"` });
}

describe('a file of each format, over the API', () => {
  it('MIDI tells the grid on which it was read', async () => {
    const { first } = await loaded('pairs.mid', pairs());
    expect(first.facts).toMatchObject({ barCount: 2, soundingNotes: 16, quartersPerMinute: 100 });
    expect(first.reading).toMatchObject({
      format: 'midi',
      chosen: { tune: null, grid: null },
      tunes: [],
      grid: [{ firstBar: 1, lastBar: 2, kind: 'swing' }],
    });
  });

  it('ABC tells its tunes, and which one was read', async () => {
    const { first } = await loaded('tunes.abc', utf8(abc));
    expect(first.facts).toMatchObject({ title: 'The Stile', barCount: 2, soundingNotes: 4 });
    expect(first.reading).toMatchObject({
      format: 'abc',
      chosen: { tune: 3 },
      tunes: [
        { number: 3, title: 'The Stile' },
        { number: 7, title: 'The Gate' },
      ],
    });
  });

  it('text tablature leaves nothing open', async () => {
    const { at, first } = await loaded('lines.txt', utf8(tab));
    expect(first.facts).toMatchObject({ barCount: 2, soundingNotes: 5 });
    expect(first.reading).toMatchObject({ format: 'textTab', tunes: [], grid: [], sounding: [] });
    expect((await songAt(at)).score?.reading).toEqual(first.reading);
  });
});

describe('a file read again', () => {
  it('on another grid is the next version; every note keeps its name and its marks', async () => {
    const { at } = await loaded('pairs.mid', pairs());
    const [names, split] = [await noteIdsAt(at), await splitAt(at)];
    const version = (await read(at, { grid: 'triplet' })).expect(200).as(scoreVersion);
    expect(version).toMatchObject({ version: 2, fileName: 'pairs.mid' });
    expect(version.reading).toMatchObject({ chosen: { grid: 'triplet' }, grid: [{ kind: 'triplet' }] });
    expect(await splitAt(at)).toEqual(split);
    expect(await noteIdsAt(at)).toEqual(names);
    expect(await songAt(at)).toMatchObject({ looseNoteCount: 0, score: { version: 2 } });
    const straight = (await read(at, { grid: 'straight' })).expect(200).as(scoreVersion);
    expect(straight.reading?.grid.map(({ kind }) => kind)).toEqual(['straight']);
    expect((await songAt(at)).looseNoteCount).toBe(0);
    (await read(at, {})).expect(200);
    expect(await noteIdsAt(at)).toEqual(names);
    const files = await api.app
      .get(Database)
      .manager.query<{ bytes: Buffer }[]>('SELECT bytes FROM score_file WHERE song_id = $1', [at.split('/').at(-1)]);
    expect(files.map(({ bytes }) => bytes.equals(pairs()))).toEqual([true]);
  });

  it('at another octave sounds there, and every note keeps its name', async () => {
    const { songId, owner } = course;
    const at = `/api/songs/${songId}`;
    const before = await songAt(at);
    const [names, split] = [await noteIdsAt(at), await splitAt(at)];
    expect(before.score?.reading?.sounding).toEqual([{ part: 'P1', octave: 0, octaveBy: 'clef', capo: null }]);
    const lower = (await read(at, { sounding: [{ part: 'P1', octave: -1 }] })).expect(200).as(scoreVersion);
    expect(lower.facts.parts[0]?.soundingShift).toBe(-12);
    const byFile = { octave: 0, octaveBy: 'clef', capo: null };
    expect(lower.reading?.sounding).toEqual([{ part: 'P1', octave: -1, octaveBy: 'person', capo: null, byFile }]);
    expect([await noteIdsAt(at), await splitAt(at)]).toEqual([names, split]);
    expect((await read(at, { sounding: [{ part: 'P1', octave: -1 }] })).expect(200).as(scoreVersion).version).toBe(
      lower.version,
    );
    const original = (await owner.as.get(`${at}/score/original`)).expect(200).text;
    const newer = (await owner.as.upload(`${at}/score`, 'newer.musicxml', utf8(original))).expect(201).as(scoreVersion);
    expect(newer.reading?.chosen.sounding).toEqual([{ part: 'P1', octave: -1, capo: null }]);
    expect((await read(at, {})).expect(200).as(scoreVersion).facts.parts[0]?.soundingShift).toBe(0);
  });

  it('at another octave in one part leaves the other as it was, and a newer file is read so too', async () => {
    const { at, first } = await loaded('two.musicxml', utf8(twoGuitars()));
    expect(first.reading?.chosen.sounding).toEqual([]);
    expect(first.facts.parts.map(({ soundingShift }) => soundingShift)).toEqual([0, -10]);
    const wish = { sounding: [{ part: 'P2', octave: 0, capo: 'sounding' } as const] };
    const other = (await read(at, wish)).expect(200).as(scoreVersion);
    expect(other.facts.parts.map(({ soundingShift }) => soundingShift)).toEqual([0, 0]);
    expect(other.reading?.sounding).toMatchObject([
      { part: 'P1', octave: 0, octaveBy: 'clef', capo: null },
      { part: 'P2', octave: 0, octaveBy: 'person', capo: { are: 'sounding', by: 'person' } },
    ]);
    const empty = { part: 'P1', octave: null, capo: null };
    expect((await read(at, { sounding: [...wish.sounding, empty] })).as(scoreVersion).version).toBe(other.version);
    const upload = (xml: string) => course.owner.as.upload(`${at}/score`, 'newer.musicxml', utf8(xml));
    const newer = (await upload(twoGuitars())).expect(201).as(scoreVersion);
    expect(newer.reading?.chosen).toEqual(other.reading?.chosen);
    const renamed = (await upload(twoGuitars().replaceAll('"P2"', '"P9"'))).expect(201).as(scoreVersion);
    expect(renamed.reading?.chosen.sounding).toEqual([]);
  });

  it('forgets what is chosen of a capo that a newer file has not, or of frets that another tune has not, so that all else can be chosen', async () => {
    const { at } = await loaded('two.musicxml', utf8(twoGuitars()));
    (await read(at, { sounding: [{ part: 'P2', octave: 0, capo: 'sounding' }] })).expect(200);
    const without = utf8(twoGuitars().replace(/<direction>.*?<\/direction>/, ''));
    const newer = (await course.owner.as.upload(`${at}/score`, 'newer.musicxml', without)).expect(201).as(scoreVersion);
    expect(newer.reading?.chosen.sounding).toEqual([{ part: 'P2', octave: 0, capo: null }]);
    const lower = { sounding: [{ part: 'P2', octave: -1 }] };
    expect((await read(at, lower)).expect(200).as(scoreVersion).facts.parts[1]?.soundingShift).toBe(-12);

    const tunes = await loaded('tunes.abc', utf8(fretted));
    const low = { tune: 1, sounding: [{ part: 'P1', octave: -1 }] };
    expect((await read(tunes.at, low)).expect(200).as(scoreVersion).reading?.chosen.sounding).toHaveLength(1);
    const sung = (await read(tunes.at, { ...low, tune: 2 })).expect(200).as(scoreVersion);
    expect(sung.reading).toMatchObject({ chosen: { tune: 2, sounding: [] }, sounding: [] });
    (await read(tunes.at, { ...sung.reading?.chosen, tune: 1 })).expect(200);
  });

  it('for another tune is split anew, and the first tune comes back as it was left', async () => {
    const { at } = await loaded('tunes.abc', utf8(abc));
    const [names, song] = [await noteIdsAt(at), await songAt(at)];
    const second = (await read(at, { tune: 7 })).expect(200).as(scoreVersion);
    expect(second.facts).toMatchObject({ title: 'The Gate', soundingNotes: 3 });
    expect((await songAt(at)).looseNoteCount).toBe(0);
    (await read(at, { tune: 3 })).expect(200);
    expect(await noteIdsAt(at)).toEqual(names);
    expect(await songAt(at)).toMatchObject({ looseNoteCount: 0, score: { facts: song.score?.facts } });
  });
});

describe('a reading is refused', () => {
  const refusals: readonly (readonly [string, z.input<typeof readingChoice>, string])[] = [
    ['the grid of a file that is no MIDI', { grid: 'swing' }, 'MIDI files only'],
    ['a tune that the file does not have', { tune: 9 }, 'it has 3, 7'],
    ['an octave where nothing has frets', { sounding: [{ part: 'P1', octave: 1 }] }, 'no octave and no capo to choose'],
    ['an octave beyond all guitars', { sounding: [{ part: 'P1', octave: 9 }] }, 'octave'],
  ];
  const onGuitars: typeof refusals = [
    ['a part that there is not', { sounding: [{ part: 'P3', octave: 1 }] }, 'there is for P1, P2'],
    ['a capo where there is none', { sounding: [{ part: 'P1', capo: 'shapes' }] }, 'Part P1 has no capo'],
    [
      'a part that is named twice',
      {
        sounding: [
          { part: 'P1', octave: 1 },
          { part: 'P1', octave: 0 },
        ],
      },
      'named twice',
    ],
  ];
  it.each(onGuitars)('%s', async (_, choice, words) => {
    const { at, first } = await loaded('two.musicxml', utf8(twoGuitars()));
    expect((await read(at, choice)).refused(400, 'body-invalid').detail).toContain(words);
    expect((await songAt(at)).score).toEqual(first);
  });

  it.each(refusals)('%s', async (_, choice, words) => {
    const { at, first } = await loaded('tunes.abc', utf8(abc));
    expect((await read(at, choice)).refused(400, 'body-invalid').detail).toContain(words);
    expect((await songAt(at)).score).toEqual(first);
  });

  it('without the version that was seen, with an old one, without a score, and to others', async () => {
    const { at } = await loaded('pairs.mid', pairs());
    const [path, choice] = [`${at}/score/reading`, { grid: 'triplet' }];
    (await course.owner.as.post(path, choice)).refused(428, 'precondition-missing');
    (await course.owner.as.post(path, choice, { 'if-match': '"1"' })).refused(412, 'changed-meanwhile');
    (await api.stranger().post(path, choice, { 'if-match': '"2"' })).refused(401, 'not-signed-in');
    (await course.student.as.post(path, choice, { 'if-match': '"2"' })).refused(403, 'not-permitted');
    const other = await api.person('Somebody else');
    (await other.as.post(path, choice, { 'if-match': '"2"' })).refused(404, 'not-found');
    const bare = (await course.owner.as.post(`/api/courses/${course.courseId}/songs`, { title: 'Bare' })).as(
      songDetail,
    );
    (await course.owner.as.post(`/api/songs/${bare.id}/score/reading`, choice, { 'if-match': '"1"' })).refused(
      404,
      'not-found',
    );
    (await course.coTeacher.as.post(path, choice, { 'if-match': '"2"' })).expect(200);
  });
});

describe('string and fret of each note', () => {
  const of = async (at: string) => (await course.owner.as.get(`${at}/score/fingering`)).expect(200).as(scoreFingering);

  it('are proposed where the file has none, and are kept nowhere', async () => {
    const { at, first } = await loaded('tunes.abc', utf8(abc));
    const { notes, issues } = await of(at);
    expect(issues).toEqual([]);
    // G4, A4, B4 and D5 on a guitar in standard tuning, open strings E4 and B3. Common practice, no source.
    expect(notes.map(({ string, fret, isProposed }) => [[64, 59, 55][string - 1]! + fret, isProposed])).toEqual([
      [67, true],
      [69, true],
      [71, true],
      [74, true],
    ]);
    expect((await course.owner.as.get(`${at}/score`)).text).not.toContain('<fret>');
    expect((await songAt(at)).score).toEqual(first);
  });

  it('are those of a tablature, and absent without a score', async () => {
    const { at } = await loaded('lines.txt', utf8(tab));
    expect((await of(at)).notes.map(({ string, fret, isProposed }) => [string, fret, isProposed])).toEqual([
      [1, 0, false],
      [1, 1, false],
      [1, 3, false],
      [1, 0, false],
      [5, 0, false],
    ]);
    const bare = (await course.owner.as.post(`/api/courses/${course.courseId}/songs`, { title: 'Bare' })).as(
      songDetail,
    );
    (await course.owner.as.get(`/api/songs/${bare.id}/score/fingering`)).refused(404, 'not-found');
  });

  it('stand in brackets in a line that is written out with tablature', async () => {
    const { at } = await loaded('tunes.abc', utf8(abc));
    const answer = (await course.owner.as.get(`${at}/export?what=lines&format=musicxml&tablature=with`)).expect(200);
    expect(answer.text.match(/<notehead parentheses="yes">normal<\/notehead>/g)).toHaveLength(4);
    expect(answer.text).toContain('Frets in brackets are proposed');
    expect(decodeURIComponent(answer.headers.get('heddle-notes') ?? '')).toContain('those in brackets are proposed');
  });
});
