import { parseArgs } from 'node:util';
import type { Command, Given } from './command.ts';
import { WrongUse } from './failures.ts';

/** `--octave -1` as `--octave=-1`: a number below zero that follows an option which takes a value is that value. */
function joinNumbers(args: readonly string[], options: Command['options']): string[] {
  const takesValue = (arg: string | undefined): boolean =>
    arg !== undefined && arg.startsWith('--') && options[arg.slice(2)]?.type === 'string';
  const end = args.includes('--') ? args.indexOf('--') : args.length;
  return args.flatMap((arg, index) => {
    const next = args[index + 1];
    const isJoined = (at: number): boolean => at < end && takesValue(args[at - 1]) && /^-\d/.test(args[at] ?? '');
    if (isJoined(index)) return [];
    return isJoined(index + 1) ? [`${arg}=${next ?? ''}`] : [arg];
  });
}

/** What is wrong with the arguments, as the parser says it, but without its advice. */
const sentence = (message: string): string =>
  `${message.split(/\. |\.?\n/)[0] ?? ''}.`.replace('argument is ambiguous', 'argument missing');

/** What stands behind a command's name, by that command's options and `--help`. **Errors** `WrongUse`. */
export function givenTo(command: Command, args: readonly string[]): Given {
  const options = { ...command.options, help: { type: 'boolean', short: 'h' } } as const;
  try {
    const { values, positionals } = parseArgs({
      args: joinNumbers(args, options),
      options,
      allowPositionals: true,
      strict: true,
    });
    return { operands: positionals, options: values };
  } catch (error) {
    throw new WrongUse(error instanceof Error ? sentence(error.message) : String(error));
  }
}
