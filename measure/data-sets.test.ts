import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { dataSetsIn } from './data-sets.ts';

let folder: string;
const put = (name: string, value: unknown): void => writeFileSync(join(folder, name), JSON.stringify(value));
const piece = {
  id: 'one',
  title: 'passed over',
  divisionsPerQuarter: 4,
  timeSignatures: [{ onset: 0, beats: 6, beatType: 8 }],
  notes: [{ onset: 2, duration: 4, midi: 60, voice: 2 }],
};

beforeAll(() => (folder = mkdtempSync(join(tmpdir(), 'heddle-sets-'))));
afterAll(() => rmSync(folder, { recursive: true }));

describe('dataSetsIn', () => {
  it('reads every JSON file of a folder in order of their names, and nothing else', () => {
    put('b.json', { dataset: 'second', pieces: [] });
    put('a.json', { dataset: 'first', pieces: [piece] });
    put('notes.txt', 'not a data set');
    expect(dataSetsIn(folder)).toEqual([
      {
        name: 'first',
        pieces: [
          {
            id: 'one',
            ticksPerQuarter: 4,
            meters: [{ onsetTicks: 0, beats: 6, beatUnit: 8 }],
            notes: [{ onsetTicks: 2, lengthTicks: 4, midi: 60, voice: '2' }],
          },
        ],
      },
      { name: 'second', pieces: [] },
    ]);
  });

  it('says which file is no data set, and where', () => {
    put('c.json', {
      dataset: 'third',
      pieces: [{ ...piece, notes: [{ onset: -1, duration: 4, midi: 60, voice: 2 }] }],
    });
    expect(() => dataSetsIn(folder)).toThrow(/c\.json is no data set: [^]*notes\[0\]\.onset/);
  });
});
