import { runCommandLine } from './run-command-line.ts';

// Whoever reads no further (`… | head`) has what they want.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit();
});

const { exitCode, out, err } = await runCommandLine(process.argv.slice(2));
process.stderr.write(err);
process.stdout.write(out);
process.exitCode = exitCode;
