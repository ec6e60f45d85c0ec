import type { ParseArgsConfig } from 'node:util';
import { WrongUse } from './failures.ts';
import { listed } from './say.ts';

/** What stands behind a command's name on the command line, each option by its long name. */
export interface Given {
  readonly operands: readonly string[];
  readonly options: Readonly<Record<string, string | boolean | undefined>>;
}

/** What a command says: its answer on stdout, and sentences beside it on stderr. */
export interface Said {
  readonly out: string;
  readonly beside: readonly string[];
}

/** One thing that `heddle` can do. A new command is a file of its own and a row in `commands.ts`. */
export interface Command {
  readonly name: string;
  /** One line for the overview. */
  readonly summary: string;
  /** The command line without the command's name. */
  readonly usage: string;
  /** A line for each option and whatever else one has to know. */
  readonly details: string;
  readonly options: NonNullable<ParseArgsConfig['options']>;
  readonly run: (given: Given) => Said | Promise<Said>;
}

/** The text of an option, or undefined where it was not given. */
export function textOption({ options }: Given, name: string): string | undefined {
  const value = options[name];
  return typeof value === 'string' ? value : undefined;
}

/** A whole number that an option says, or undefined where it was not given. **Errors** `WrongUse`. */
export function wholeOption(given: Given, name: string, least: number, most: number): number | undefined {
  const text = textOption(given, name);
  return text === undefined ? undefined : wholeIn(text, name, least, most);
}

/** A whole number in the text of an option. **Errors** `WrongUse`. */
export function wholeIn(text: string, name: string, least: number, most: number): number {
  const value = Number(text);
  if (!/^-?\d+$/.test(text) || value < least || value > most)
    throw new WrongUse(`--${name} is ${text}; it must be a whole number from ${least} to ${most}.`);
  return value;
}

/** One of the words that an option may be, or undefined where it was not given. **Errors** `WrongUse`. */
export function wordOption<Word extends string>(given: Given, name: string, words: readonly Word[]): Word | undefined {
  const text = textOption(given, name);
  return text === undefined ? undefined : wordIn(text, name, words);
}

/** One of some words in the text of an option. **Errors** `WrongUse`. */
export function wordIn<Word extends string>(text: string, name: string, words: readonly Word[]): Word {
  const word = words.find((candidate) => candidate === text);
  if (word === undefined) throw new WrongUse(`--${name} is ${text}; it must be ${listed(words, 'or')}.`);
  return word;
}

/** The one file that a command works on. **Errors** `WrongUse`. */
export function oneFile({ operands }: Given): string {
  const [path] = operands;
  if (path === undefined || path === '') throw new WrongUse('No file is named.');
  if (operands.length > 1)
    throw new WrongUse(`One file is needed; ${operands.length} are named: ${operands.join(', ')}.`);
  return path;
}
