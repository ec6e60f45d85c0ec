import { timelineOf, type Timeline } from '../../music/index.ts';
import { oneFile, wordOption, type Command } from '../command.ts';
import { foundInReading, inputDetails, inputOptions, readInput } from '../input.ts';
import { jsonRows, table } from '../say.ts';

type Row = Readonly<Record<string, string | number | null>>;

/** To a millionth of a second, so that sums of parts print as what they are. */
const seconds = (value: number): number => Math.round(value * 1e6) / 1e6;

/** A double-stemmed unison has a row for each stem, as long as that stem writes it. */
function noteRows({ notes, bars }: Timeline): readonly Row[] {
  const ordinals = new Map(bars.map(({ bar, ordinal }) => [bar, ordinal]));
  return notes.flatMap(({ note, bar, pass, midi, onsetSeconds, voiceLengthSeconds }) =>
    voiceLengthSeconds.map((lengthSeconds) => ({
      id: note,
      bar: ordinals.get(bar) ?? null,
      pass,
      midi,
      onsetSeconds: seconds(onsetSeconds),
      lengthSeconds: seconds(lengthSeconds),
    })),
  );
}

const barRows = ({ bars }: Timeline): readonly Row[] =>
  bars.map(({ ordinal, label, pass, startSeconds, endSeconds }) => ({
    bar: ordinal,
    label,
    pass,
    startSeconds: seconds(startSeconds),
    endSeconds: seconds(endSeconds),
  }));

const asTable = (rows: readonly Row[]): string =>
  table([Object.keys(rows[0] ?? {}), ...rows.map((row) => Object.values(row).map((value) => String(value ?? 'hit')))]);

/** `heddle timeline`: when each note or bar sounds, as written, repeats unfolded. */
export const timeline: Command = {
  name: 'timeline',
  summary: 'Tells when each sounding note is heard, repeats and jumps unfolded, played exactly as written.',
  usage: 'FILE [--of notes|bars] [--json]',
  details: `--of bars    a row for each playing of a bar, not for each playing of a note
--json       as JSON: a list of {id, bar, pass, midi, onsetSeconds, lengthSeconds}, of bars
             {bar, label, pass, startSeconds, endSeconds}. bar is the place in written order, from 1;
             midi is null for a hit
Without a tempo in the score 120 quarter notes are played a minute; no swing, no fermatas, no grace notes.
${inputDetails}`,
  options: { ...inputOptions, of: { type: 'string' }, json: { type: 'boolean' } },
  run: (given) => {
    const rowsOf = wordOption(given, 'of', ['notes', 'bars']) === 'bars' ? barRows : noteRows;
    const path = oneFile(given);
    const read = readInput(path, given);
    const rows = rowsOf(timelineOf(read.score));
    const out = given.options['json'] === true ? jsonRows(rows) : asTable(rows);
    return { out, beside: foundInReading(path, read) };
  },
};
