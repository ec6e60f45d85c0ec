import { factsOf, type PartFacts, type ReadFile, type ScoreFacts } from '../../music/index.ts';
import { oneFile, type Command } from '../command.ts';
import { inputDetails, inputOptions, readInput } from '../input.ts';
import { choiceLines, soundingText } from '../reading-text.ts';
import { counted, issueText, listed } from '../say.ts';

function report({ format, choices, sounding, score, issues }: ReadFile): object {
  const { barCount, ...facts } = factsOf(score);
  return { format, ...choices, ...facts, sounding, bars: barCount, issues };
}

const formatNames: Readonly<Record<ReadFile['format'], string>> = {
  musicxml: 'MusicXML',
  midi: 'MIDI',
  abc: 'ABC',
  textTab: 'text tablature',
};

function partText({ id, name, staves, tuning, capoFret, soundingNotes, pairedWith }: PartFacts): string {
  const strings = tuning === null ? '' : `, ${counted(tuning.length, 'string')}`;
  const capo = capoFret === 0 ? '' : `, capo at fret ${capoFret}`;
  const copy = pairedWith === null ? counted(soundingNotes, 'sounding note') : `the same notes as ${pairedWith}`;
  return `  ${id}${name === '' ? '' : ` ${name}`}: ${copy}, ${listed([...staves])}${strings}${capo}`;
}

const changeText = (changes: ScoreFacts['meters'], from = ''): string =>
  changes.map(([bar, value]) => `${value}${changes.length === 1 ? '' : ` from bar #${bar}`}${from}`).join(', ');

const keyText = (fifths: number): string =>
  fifths === 0 ? 'no sharps or flats' : counted(Math.abs(fifths), fifths > 0 ? 'sharp' : 'flat');

function summary(read: ReadFile): string {
  const facts = factsOf(read.score);
  const title = [facts.title, facts.composer].filter((text) => text !== '').join(', ');
  const tempo = facts.quartersPerMinute === null ? 'none' : `${facts.quartersPerMinute} quarter notes a minute`;
  const lines = [
    title === '' ? 'Without title' : title,
    `Read as ${formatNames[read.format]}: ${counted(facts.barCount, 'bar')}, ${counted(facts.heads, 'head')}, ${counted(facts.soundingNotes, 'sounding note')}, ${counted(facts.plucks, 'pluck')}`,
    ...choiceLines(read.choices),
    ...facts.parts.map((part) => `${partText(part)}${soundingText(part.id, read)}`),
    `Meter: ${changeText(facts.meters)}`,
    `Key: ${changeText(facts.keys.map(([bar, fifths]) => [bar, keyText(fifths)] as const))}`,
    `Tempo: ${tempo}`,
    read.issues.length === 0 ? 'Nothing was repaired or left out.' : `Found while reading (${read.issues.length}):`,
    ...read.issues.map((issue) => `  ${issueText(issue)}`),
  ];
  return `${lines.join('\n')}\n`;
}

/** `heddle inspect`: what a score is, in numbers, and what was found while it was read. */
export const inspect: Command = {
  name: 'inspect',
  summary: 'Tells what a score holds, what was repaired in it and what was left out.',
  usage: 'FILE [--json]',
  details: `--json       as JSON: format, title, composer, parts, bars, heads, soundingNotes, plucks, meters, keys,
             quartersPerMinute, issues; sounding tells the octave and the capo of parts with frets and what was
             believed for it (byFile: what the file alone gives to believe, where one chose); tunes those of an ABC file, grid how the time of a MIDI file was counted. Bars in lists are places in written order, from 1.
${inputDetails}`,
  options: { ...inputOptions, json: { type: 'boolean' } },
  run: (given) => {
    const read = readInput(oneFile(given), given);
    const out = given.options['json'] === true ? `${JSON.stringify(report(read), null, 2)}\n` : summary(read);
    return { out, beside: [] };
  },
};
