import { StartFailure } from '../failure.ts';

/** Runs a command to its end; a `StartFailure` is told in one sentence, anything else with its trace. Ends with code 1 on either. */
export async function runCommand(command: () => Promise<void>): Promise<void> {
  try {
    await command();
  } catch (error) {
    console.error(error instanceof StartFailure ? error.message : error);
    process.exitCode = 1;
  }
}
