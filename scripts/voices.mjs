// Reads pieces, writes the line of each of their notes: npm run --silent voices -- INPUTS.json OUT.json [--lines N]
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { standWhereCalled } from './caller-folder.js';
import { BadInput, readPieces } from './voices/read-pieces.js';
import { writeWhole } from './voices/write-whole.js';

const usage = 'usage: npm run --silent voices -- INPUTS.json OUT.json [--lines N]';
const root = fileURLToPath(new URL('..', import.meta.url));

function parsed() {
  try {
    return parseArgs({ allowPositionals: true, options: { lines: { type: 'string' } } });
  } catch (error) {
    throw new BadInput(`${error.message}\n${usage}`);
  }
}

function readArguments() {
  const { values, positionals } = parsed();
  if (positionals.length !== 2)
    throw new BadInput(`Two files are needed, the pieces and the answer; ${positionals.length} were named.\n${usage}`);
  const { lines } = values;
  if (lines !== undefined && !/^[1-8]$/.test(lines))
    throw new BadInput(`--lines is ${lines}; it must be a whole number from 1 to 8.\n${usage}`);
  return { inputs: positionals[0], out: positionals[1], lineCount: lines === undefined ? undefined : Number(lines) };
}

async function splitter() {
  execFileSync(process.execPath, ['node_modules/typescript/bin/tsc', '-b', 'music'], {
    cwd: root,
    stdio: ['ignore', process.stderr, 'inherit'],
  });
  const { separateVoices } = await import('../dist/music/index.js');
  return separateVoices;
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

standWhereCalled('voices');
try {
  const { inputs, out, lineCount } = readArguments();
  const pieces = readPieces(inputs);
  const separateVoices = await splitter();
  const labels = pieces.map((piece) => [piece.id, labelsOf(separateVoices, piece, lineCount)]);
  writeWhole(out, JSON.stringify(Object.fromEntries(labels)));
} catch (error) {
  if (!(error instanceof BadInput)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 2;
}
