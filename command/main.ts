import { reasonOf } from './reasons.ts';
import { runCommandLine } from './run-command-line.ts';

/** Whoever reads no further (`… | head`) has what they want. */
const isClosedPipe = ({ code }: NodeJS.ErrnoException): boolean => code === 'EPIPE';

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (isClosedPipe(error)) process.exit();
  process.exitCode = 1;
  process.stderr.write(`The answer cannot be written to stdout: ${reasonOf(error)}.\n`);
});
// Nobody is left to be told.
process.stderr.on('error', () => undefined);

const { exitCode, out, err } = await runCommandLine(process.argv.slice(2));
process.exitCode = exitCode;
process.stderr.write(err);
process.stdout.write(out);
