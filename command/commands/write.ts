import { excerptOfBars, fingeringsOf, writeOut, type Excerpt, type Score } from '../../music/index.ts';
import { chosenBars, type BarChoice } from '../bar-choice.ts';
import { oneFile, textOption, wordOption, type Command, type Given } from '../command.ts';
import { CannotDo, WrongUse } from '../failures.ts';
import { foundInReading, inputDetails, inputOptions, readInput } from '../input.ts';
import { counted, issueText, listed } from '../say.ts';
import { splitDetails, splitOf, splitOptions } from '../split-of.ts';
import { writeWhole } from '../write-whole.ts';
import { writerFor, writtenEndings } from '../written-file.ts';

function barsOf(score: Score, given: Given): BarChoice {
  const text = textOption(given, 'bars');
  if (text !== undefined) return chosenBars(score, text);
  const [first, last] = [score.bars[0], score.bars.at(-1)];
  if (first === undefined || last === undefined) throw new CannotDo('The score holds no bars. Nothing was written.');
  return { first, last };
}

function excerptOf(score: Score, { first, last }: BarChoice): Excerpt {
  const excerpt = excerptOfBars(score, first.id, last.id);
  if (excerpt === null)
    throw new CannotDo(`Bars #${first.ordinal} to #${last.ordinal} hold no time. Nothing was written.`);
  return excerpt;
}

function outputOf(given: Given): string {
  const path = textOption(given, 'output');
  if (path === undefined || path === '') throw new WrongUse('Say where to write: -o OUT.');
  return path;
}

/** `heddle write`: the lines of a score or of some of its bars, written out into a file. */
export const write: Command = {
  name: 'write',
  summary: 'Writes the lines out, a staff each with its rests, into a file.',
  usage: 'FILE [--lines N] [--parts A,B] [--bars A-B] [--lengths written|next|string] [--tablature] -o OUT',
  details: `-o, --output OUT  ends in ${listed(writtenEndings, 'or')}
${splitDetails}
--bars A-B   only these bars, by their printed numbers, or one bar: A. Where a printed number is not alone,
             by places in written order: "#12-#15" (in quotes, for the shell)
--tablature  each line’s strings and frets under its notes, in MusicXML; where the file has none they are proposed
             and stand in brackets
--lengths    as written; to the line’s next note; until the string is struck again. Otherwise as written
${inputDetails}`,
  options: {
    ...inputOptions,
    ...splitOptions,
    bars: { type: 'string' },
    lengths: { type: 'string' },
    tablature: { type: 'boolean' },
    output: { type: 'string', short: 'o' },
  },
  run: (given) => {
    const [path, target] = [oneFile(given), outputOf(given)];
    const writer = writerFor(target);
    const lengths = wordOption(given, 'lengths', ['written', 'next', 'string']) ?? 'written';
    const read = readInput(path, given);
    const bars = barsOf(read.score, given);
    const { arrangement, split } = splitOf(read.score, given);
    const { value, issues } = writeOut(arrangement, split, excerptOf(read.score, bars), {
      lengths,
      ...(given.options['tablature'] === true ? { tablature: true, places: fingeringsOf(arrangement).value } : {}),
    });
    const file = writer(value);
    writeWhole(target, file.bytes);
    const out = `Wrote ${counted(value.staves.length, 'line')} of ${counted(value.bars.length, 'bar')} to ${target}.\n`;
    return {
      out,
      beside: [...foundInReading(path, read), ...[...issues, ...file.issues].map(issueText)],
    };
  },
};
