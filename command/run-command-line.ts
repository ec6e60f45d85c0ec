import { givenTo } from './arguments.ts';
import type { Command, Said } from './command.ts';
import { commands } from './commands.ts';
import { CannotDo, WrongUse } from './failures.ts';
import { listed } from './say.ts';
import { version } from './version.ts';

/** What came of a command line: exit code 0 fine, 1 not read or not written, 2 wrong use. */
export interface Outcome {
  readonly exitCode: 0 | 1 | 2;
  readonly out: string;
  readonly err: string;
}

const call = 'npm run --silent heddle --';
const lines = (sentences: readonly string[]): string => sentences.map((sentence) => `${sentence}\n`).join('');

const exitCodes = `Exit codes: 0 fine, 1 a file cannot be read or not be written as asked, 2 wrong use.
What goes wrong is told on stderr; then nothing is written, and a file that was there before stays as it was.`;

function overview(): string {
  const width = Math.max(...commands.map(({ name }) => name.length));
  const rows = commands.map(({ name, summary }) => `  ${name.padEnd(width)}  ${summary}`);
  return lines([
    `Usage: ${call} COMMAND FILE [options]`,
    '',
    'Reads a score (MusicXML, .mxl, MIDI, ABC, text tablature), tells what it holds, splits it into lines, writes them out, plays them into files.',
    '',
    ...rows,
    '',
    `${call} COMMAND --help tells more; --version tells the version.`,
    'FILE may be - for standard input; a file whose name begins with a dash is ./-name.',
    exitCodes,
  ]);
}

const usageOf = ({ name, usage }: Command): string => `Usage: ${call} ${name} ${usage}`;
const helpOf = (command: Command): string =>
  lines([usageOf(command), '', command.summary, '', command.details, '', exitCodes]);

async function answered(command: Command, args: readonly string[]): Promise<Said> {
  const given = givenTo(command, args);
  return given.options['help'] === true ? { out: helpOf(command), beside: [] } : command.run(given);
}

function refusal(error: unknown, usage: string): Outcome {
  if (error instanceof WrongUse) return { exitCode: 2, out: '', err: lines([error.message, usage]) };
  if (error instanceof CannotDo) return { exitCode: 1, out: '', err: lines([error.message]) };
  const trace = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return {
    exitCode: 1,
    out: '',
    err: lines(['This is a fault of Heddle, not of your file. Nothing was written.', trace]),
  };
}

const unknownCommand = (name: string): Outcome => {
  const names = listed(commands.map((command) => command.name));
  return {
    exitCode: 2,
    out: '',
    err: lines([`There is no command ${name}; there are ${names}.`, `${call} --help tells more.`]),
  };
};

/** What `help` or `help COMMAND` says. */
function helpOn(name: string | undefined): Outcome {
  if (name === undefined) return { exitCode: 0, out: overview(), err: '' };
  const command = commands.find((candidate) => candidate.name === name);
  return command === undefined ? unknownCommand(name) : { exitCode: 0, out: helpOf(command), err: '' };
}

/** Does what a command line says, but for printing: what belongs on stdout and stderr is in the outcome. */
export async function runCommandLine(args: readonly string[]): Promise<Outcome> {
  const [name, ...rest] = args;
  if (name === undefined) return { exitCode: 2, out: '', err: overview() };
  if (name === '--help' || name === '-h' || name === 'help') return helpOn(rest[0]);
  if (name === '--version') return { exitCode: 0, out: `heddle ${version()}\n`, err: '' };
  const command = commands.find((candidate) => candidate.name === name);
  if (command === undefined) return unknownCommand(name);
  try {
    const { out, beside } = await answered(command, rest);
    return { exitCode: 0, out, err: lines(beside) };
  } catch (error) {
    return refusal(error, usageOf(command));
  }
}
