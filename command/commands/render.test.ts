import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { outsideLoudness } from '../../tests/support/outside-loudness.ts';
import { tinyScore } from '../../tests/support/tiny-musicxml.ts';
import { runCommandLine } from '../run-command-line.ts';

const folder = mkdtempSync(join(tmpdir(), 'heddle-render-'));
const score = join(folder, 'two.musicxml');
writeFileSync(score, tinyScore(['v1s1 E4:q G4:q A4:h ; v2s1 E3:h B3:h | v1s1 G4:w ; v2s1 E3:w', { name: 'Guitar' }]));
afterAll(() => rmSync(folder, { recursive: true }));

/** One side of a 24-bit stereo WAV file. */
function sideOf(path: string, side: 0 | 1 = 0): Float32Array {
  const bytes = readFileSync(path);
  return Float32Array.from(
    { length: (bytes.length - 44) / 6 },
    (_, frame) => bytes.readIntLE(44 + frame * 6 + side * 3, 3) / 2 ** 23,
  );
}

interface FileRow {
  readonly file: string;
  readonly holds: string;
  readonly loudnessLufs: number;
  readonly bytes: number;
}

describe('heddle render', () => {
  it('plays a 24-bit WAV for each line and the mix, which they sum to', async () => {
    const out = join(folder, 'sound');
    const { exitCode, out: told } = await runCommandLine(['render', score, '--lines', '2', '-o', out, '--json']);
    expect(exitCode).toBe(0);
    const rows = JSON.parse(told) as readonly FileRow[];
    expect(rows.map(({ holds }) => holds)).toEqual(['everything together', 'M Melody', 'B Bass']);
    expect(readdirSync(out).sort()).toEqual(rows.map(({ file }) => file).sort());
    const [mix, ...stems] = rows.map(({ file }) => sideOf(join(out, file)));
    expect(mix!.length).toBe(48_000 * ((8 * 60) / 120 + 2)); // two bars at the tempo that is assumed, and the tail
    const apart = mix!.map((value, index) => Math.abs(value - stems.reduce((sum, stem) => sum + stem[index]!, 0)));
    expect(apart.reduce((a, b) => Math.max(a, b), 0)).toBeLessThan(10 ** (-90 / 20));
    expect(rows[0]!.bytes).toBe(readFileSync(join(out, rows[0]!.file)).length);
  });

  it('plays some bars at a tempo, as loud as is asked, in another format, and tells it in a table', async () => {
    const out = join(folder, 'slow');
    const args = ['render', score, '--bars', '2', '--tempo', '80%', '--loudness=-20', '-o', out];
    const { exitCode, out: told } = await runCommandLine(args);
    expect(exitCode).toBe(0);
    expect(told).toMatch(/^file +holds +loudness +true peak\nmix\.wav +everything together +−20\.0 LUFS +−/);
    const [left, right] = [sideOf(join(out, 'mix.wav'), 0), sideOf(join(out, 'mix.wav'), 1)];
    expect(Math.abs(outsideLoudness(left, right, 48_000) - -20)).toBeLessThan(0.1);
    expect((await runCommandLine([...args, '--format', 'flac'])).exitCode).toBe(0);
    expect(readFileSync(join(out, 'mix.flac')).toString('latin1', 0, 4)).toBe('fLaC');
  });

  it('makes no WAV that is longer than a WAV can be', async () => {
    const long = join(folder, 'long.musicxml');
    writeFileSync(long, tinyScore([Array.from({ length: 2600 }, () => 'C4:w').join(' | ')]));
    const { exitCode, err } = await runCommandLine(['render', long, '--tempo', '25', '-o', join(folder, 'long')]);
    // 2,600 bars of four beats at a quarter of 120 beats a minute; 2^32 bytes of 24-bit stereo at 48 kHz are 249 minutes.
    expect(exitCode).toBe(1);
    expect(err).toMatch(
      /347 minutes are longer than a WAV file can be; flac and mp3 hold them\. Nothing was written\.\n$/,
    );
    expect(existsSync(join(folder, 'long'))).toBe(false);
  });

  it('writes none of its files where one of the files cannot be written', async () => {
    const out = join(folder, 'taken');
    mkdirSync(join(out, 'b-bass.wav'), { recursive: true });
    const { exitCode, err } = await runCommandLine(['render', score, '--lines', '2', '-o', out]);
    const taken = join(out, 'b-bass.wav');
    expect([exitCode, err]).toEqual([1, `${taken} cannot be written: it is a folder. It was left as it was.\n`]);
    expect(readdirSync(out)).toEqual(['b-bass.wav']);
  });

  it.each([
    [2, ['render', score], 'Say where to write: -o DIR.'],
    [2, ['render', score, '--tempo', '10', '-o', 'x'], '--tempo is 10; it must be a share of the written tempo'],
    [2, ['render', score, '--format', 'ogg', '-o', 'x'], '--format is ogg; it must be wav, flac or mp3.'],
    [2, ['render', score, '--count-in', '3', '-o', 'x'], '--count-in is 3; it must be a whole number from 0 to 2.'],
    [2, ['render', score, '--loudness=0', '-o', 'x'], '--loudness is 0; it must be a whole number from -40 to -9.'],
    [1, ['render', score, '--bars', '9', '-o', 'x'], 'no bar has the printed number 9'],
    [1, ['render', join(folder, 'absent'), '-o', 'x'], 'there is no such file'],
    [2, ['render', score, '-o', ''], 'Say where to write: -o DIR.'],
    [1, ['render', score, '-o', score], `${score} cannot be made: it is a file. Nothing was written.`],
    [1, ['render', score, '-o', join(score, 'x')], 'cannot be made: something on the way to it is no folder.'],
  ] as const)('refuses with code %i: %j', async (exitCode, args, sentence) => {
    const outcome = await runCommandLine(args);
    expect([outcome.exitCode, outcome.out]).toEqual([exitCode, '']);
    expect(outcome.err).toContain(sentence);
    expect(existsSync('x')).toBe(false);
  });
});
