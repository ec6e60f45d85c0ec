import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { separateVoices } from '../../music/index.ts';

const folder = mkdtempSync(join(tmpdir(), 'heddle-voices-'));
const [inputs, out] = [join(folder, 'in.json'), join(folder, 'out.json')];
const before = '{"an answer":"of an earlier run"}';

const voices = (...args: readonly string[]) =>
  spawnSync(process.execPath, ['scripts/voices.mjs', ...args], { encoding: 'utf8' });

const note = { onset: 0, duration: 1, midi: 64 };
const piece = {
  id: 'two',
  divisionsPerQuarter: 1,
  timeSignatures: [{ onset: 0, beats: 4, beatType: 4 }],
  notes: [note],
};

beforeEach(() => writeFileSync(out, before));
afterAll(() => rmSync(folder, { recursive: true }));

/** Runs on an input that must be refused, and sees that nothing was written. */
function refusal(text: string): string {
  writeFileSync(inputs, text);
  const { status, stderr, stdout } = voices(inputs, out);
  expect([status, stdout]).toEqual([2, '']);
  expect(readFileSync(out, 'utf8')).toBe(before);
  expect(readdirSync(folder).sort()).toEqual(['in.json', 'out.json']);
  expect(stderr).toContain(inputs);
  expect(stderr).not.toMatch(/\n\s+at /);
  return stderr.replaceAll(inputs, 'in.json').trim();
}

describe('npm run voices', () => {
  it('writes the labels of the proposal, one for each note, under the id of each piece', () => {
    const bare = {
      ...piece,
      id: 'without time signatures',
      timeSignatures: undefined,
      notes: [note, { ...note, midi: 48 }],
    };
    const extra = {
      ...piece,
      title: 'A',
      notes: [
        { ...note, voice: 1 },
        { onset: 0, duration: 0, midi: 40 },
      ],
    };
    writeFileSync(inputs, JSON.stringify([bare, extra, { ...piece, id: 'no notes', notes: [] }]));
    const { status, stderr, stdout } = voices(inputs, out);
    expect([status, stderr, stdout]).toEqual([0, '', '']);
    const labelsOf = (...midis: readonly (readonly [length: number, midi: number])[]) =>
      separateVoices(
        midis.map(([lengthTicks, midi]) => ({ onsetTicks: 0, lengthTicks, midi })),
        { ticksPerQuarter: 1 },
      ).labels;
    expect(JSON.parse(readFileSync(out, 'utf8'))).toEqual({
      'without time signatures': labelsOf([1, 64], [1, 48]),
      two: labelsOf([1, 64], [0, 40]),
      'no notes': [],
    });
    expect(readdirSync(folder).sort()).toEqual(['in.json', 'out.json']);
  }, 120_000);

  it('takes the number of lines at its word', () => {
    writeFileSync(inputs, JSON.stringify([{ ...piece, notes: [note, { ...note, midi: 60 }, { ...note, midi: 40 }] }]));
    expect(voices(inputs, out, '--lines', '3').status).toBe(0);
    expect(JSON.parse(readFileSync(out, 'utf8'))).toEqual({ two: [0, 1, 2] });
  }, 120_000);

  it.each([
    ['an unknown option', ['--style', 'baroque'], "Unknown option '--style'"],
    ['lines that are no number', ['--lines', 'three'], '--lines is three; it must be a whole number from 1 to 8.'],
    ['no lines', ['--lines', '0'], '--lines is 0; it must be'],
    ['half a line', ['--lines', '2.5'], '--lines is 2.5; it must be'],
    ['a third file', ['third.json'], 'Two files are needed, the pieces and the answer; 3 were named.'],
  ])('refuses %s', (_, more, sentence) => {
    writeFileSync(inputs, JSON.stringify([piece]));
    const { status, stderr } = voices(inputs, out, ...more);
    expect(status).toBe(2);
    expect(stderr).toContain(sentence);
    expect(stderr).toContain('usage: npm run --silent voices');
    expect(readFileSync(out, 'utf8')).toBe(before);
  });

  it.each([
    ['text that is not JSON', '[{"id": "two",', /^in\.json is not JSON: /],
    ['NaN', JSON.stringify([piece]).replace('"midi":64', '"midi":NaN'), /^in\.json is not JSON: .*NaN/],
    ['what is no list', '{"pieces": []}', 'in.json: what it holds is {"pieces":[]}; it must be a list.'],
    ['a piece that is none', [null], 'in.json, piece 1 is null, not an object.'],
    [
      'a piece without id',
      [piece, { ...piece, id: undefined }],
      'in.json, piece 2: id is missing; it must be a text that is not empty.',
    ],
    ['an empty id', [{ ...piece, id: '' }], 'in.json, piece 1: id is ""; it must be a text that is not empty.'],
    ['an id twice', [piece, piece], 'in.json, piece 2: another piece before it has the id "two" too.'],
    [
      'no divisions',
      [{ ...piece, divisionsPerQuarter: 0 }],
      'in.json, piece 1 (two): divisionsPerQuarter is 0; it must be a whole number, 1 or more.',
    ],
    ['no notes', [{ ...piece, notes: undefined }], 'in.json, piece 1 (two): notes is missing; it must be a list.'],
    ['a note that is none', [{ ...piece, notes: [note, 64] }], 'in.json, piece 1 (two), note 2 is 64, not an object.'],
    [
      'an onset before the beginning',
      [{ ...piece, notes: [note, note, { ...note, onset: -1 }] }],
      'in.json, piece 1 (two), note 3: onset is -1; it must be a whole number, 0 or more.',
    ],
    [
      'an onset that is no number',
      [{ ...piece, notes: [{ ...note, onset: '0' }] }],
      'in.json, piece 1 (two), note 1: onset is "0"; it must be a whole number, 0 or more.',
    ],
    [
      'a length that is missing',
      [{ ...piece, notes: [{ onset: 0, midi: 64 }] }],
      'in.json, piece 1 (two), note 1: duration is missing; it must be a whole number, 0 or more.',
    ],
    [
      'a pitch that MIDI does not know',
      [{ ...piece, notes: [{ ...note, midi: 128 }] }],
      'in.json, piece 1 (two), note 1: midi is 128; it must be a whole number from 0 to 127.',
    ],
    [
      'part of a tick',
      [{ ...piece, notes: [{ ...note, onset: 0.5 }] }],
      'in.json, piece 1 (two), note 1: onset is 0.5; it must be a whole number, 0 or more.',
    ],
    [
      'a meter of no beats',
      [{ ...piece, timeSignatures: [{ onset: 0, beats: 0, beatType: 4 }] }],
      'in.json, piece 1 (two), time signature 1: beats is 0; it must be a whole number, 1 or more.',
    ],
  ])('refuses %s, saying where, and writes nothing', (_, given, sentence) => {
    const said = refusal(typeof given === 'string' ? given : JSON.stringify(given));
    if (typeof sentence === 'string') expect(said).toBe(sentence);
    else expect(said).toMatch(sentence);
  });

  it('says which file it cannot read or write', () => {
    const absent = join(folder, 'absent.json');
    expect(voices(absent, out)).toMatchObject({
      status: 2,
      stderr: expect.stringContaining(`${absent} cannot be read: `) as string,
    });
    writeFileSync(inputs, JSON.stringify([piece]));
    const nowhere = join(folder, 'no such folder', 'out.json');
    const { status, stderr } = voices(inputs, nowhere);
    expect(status).toBe(2);
    expect(stderr).toContain(`${nowhere} cannot be written: `);
  }, 120_000);
});
