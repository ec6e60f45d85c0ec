// Reads pieces, writes the line of each of their notes: npm run --silent voices -- INPUTS.json OUT.json [--lines N]
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

const usage = 'usage: npm run --silent voices -- INPUTS.json OUT.json [--lines N]';

function fail(sentence) {
  process.stderr.write(`${sentence}\n`);
  process.exit(2);
}

function readArguments() {
  try {
    const { values, positionals } = parseArgs({ allowPositionals: true, options: { lines: { type: 'string' } } });
    const lineCount = values.lines === undefined ? undefined : Number(values.lines);
    const isCount = lineCount === undefined || (Number.isInteger(lineCount) && lineCount >= 1 && lineCount <= 8);
    if (positionals.length !== 2 || !isCount) fail(`${usage}\nN is a whole number from 1 to 8.`);
    return { inputs: positionals[0], out: positionals[1], lineCount };
  } catch (error) {
    return fail(`${error.message}\n${usage}`);
  }
}

function readPieces(path) {
  try {
    const pieces = JSON.parse(readFileSync(path, 'utf8'));
    return Array.isArray(pieces) ? pieces : fail(`${path} does not hold a list of pieces.`);
  } catch (error) {
    return fail(`${path} cannot be read: ${error.message}`);
  }
}

function labelsOf(separateVoices, piece, lineCount) {
  const notes = piece.notes.map(({ onset, duration, midi }) => ({ onsetTicks: onset, lengthTicks: duration, midi }));
  const meters = (piece.timeSignatures ?? []).map(({ onset, beats, beatType }) => ({
    onsetTicks: onset,
    beats,
    beatUnit: beatType,
  }));
  return separateVoices(notes, { ticksPerQuarter: piece.divisionsPerQuarter, lineCount, meters }).labels;
}

const { inputs, out, lineCount } = readArguments();
const root = fileURLToPath(new URL('..', import.meta.url));
execFileSync(process.execPath, ['node_modules/typescript/bin/tsc', '-b', 'music'], {
  cwd: root,
  stdio: ['ignore', process.stderr, 'inherit'],
});
const { separateVoices } = await import('../dist/music/index.js');
const labels = readPieces(inputs).map((piece) => [piece.id, labelsOf(separateVoices, piece, lineCount)]);
writeFileSync(out, JSON.stringify(Object.fromEntries(labels)));
