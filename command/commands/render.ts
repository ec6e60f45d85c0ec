import { join } from 'node:path';
import {
  activeLines,
  type Excerpt,
  excerptOfBars,
  mostWavFrames,
  renderedSeconds,
  type Score,
  type Split,
} from '../../music/index.ts';
import {
  openTrack,
  recordSound,
  soundFileNames,
  soundFormats,
  stemsOrderOf,
  type FileSource,
  type RecordOrder,
  type SoundWish,
} from '../../recording/index.ts';
import { chosenBars } from '../bar-choice.ts';
import { oneFile, textOption, wholeOption, wordOption, type Command, type Given } from '../command.ts';
import { CannotDo, WrongUse } from '../failures.ts';
import { foundInReading, inputDetails, inputOptions, readInput } from '../input.ts';
import { counted, jsonRows, table } from '../say.ts';
import { splitDetails, splitOf, splitOptions } from '../split-of.ts';
import { WholeFiles } from '../whole-files.ts';

const [leastTempo, mostTempo] = [25, 150];
/** Longer sound is played twice where its loudness is to be matched: once to find it. */
const mostKeptBytes = 512 << 20;

function tempoOf(given: Given): number {
  const text = textOption(given, 'tempo');
  if (text === undefined) return 100;
  const percent = Number(text.replace(/%$/, ''));
  if (!/^\d+(\.\d+)?%?$/.test(text) || percent < leastTempo || percent > mostTempo)
    throw new WrongUse(`--tempo is ${text}; it must be a share of the written tempo from 25% to 150%, as 80%.`);
  return percent;
}

function excerptOf(score: Score, given: Given): Excerpt | null {
  const text = textOption(given, 'bars');
  if (text === undefined) return null;
  const { first, last } = chosenBars(score, text);
  const excerpt = excerptOfBars(score, first.id, last.id);
  if (excerpt === null)
    throw new CannotDo(`Bars #${first.ordinal} to #${last.ordinal} hold no time. Nothing was written.`);
  return excerpt;
}

function wishOf(score: Score, given: Given): Omit<SoundWish, 'tempoPercent'> {
  const countInBars = wholeOption(given, 'count-in', 0, 2) ?? 0;
  return {
    excerpt: excerptOf(score, given),
    isUnfolded: wordOption(given, 'repeats', ['unfolded', 'written']) !== 'written',
    mix: { lines: [], forward: null },
    playing: {},
    countInBars: countInBars === 1 || countInBars === 2 ? countInBars : 0,
    click: { isOn: given.options['click'] === true, subdivision: 1 },
  };
}

/** What a file holds, in words. */
function holds(source: FileSource, split: Split): string {
  if (source === 'mix') return 'everything together';
  if (source === 'loose') return 'notes on no line';
  if (source === 'click') return 'the click';
  const line = activeLines(split).find(({ id }) => id === source);
  return line === undefined ? source : `${line.letter} ${line.name}`;
}

interface FileRow {
  readonly file: string;
  readonly holds: string;
  /** Null for silence. */
  readonly loudnessLufs: number | null;
  readonly truePeakDb: number | null;
  readonly bytes: number;
}

const toTenth = (value: number): number | null => (Number.isFinite(value) ? Math.round(value * 10) / 10 : null);
const levelText = (value: number | null, unit: string): string =>
  value === null ? 'silent' : `${value.toFixed(1).replace('-', '−')} ${unit}`;

const asTable = (rows: readonly FileRow[]): string =>
  table([
    ['file', 'holds', 'loudness', 'true peak'],
    ...rows.map((row) => [row.file, row.holds, levelText(row.loudnessLufs, 'LUFS'), levelText(row.truePeakDb, 'dBTP')]),
  ]);

interface Order extends RecordOrder {
  readonly split: Split;
  readonly target: string;
  readonly beside: readonly string[];
}

/** Everything that the command line asks for, checked before anything is written. */
function orderOf(given: Given): Order {
  const path = oneFile(given);
  const target = textOption(given, 'output');
  if (target === undefined || target === '') throw new WrongUse('Say where to write: -o DIR.');
  const format = wordOption(given, 'format', soundFormats) ?? 'wav';
  const targetLufs = wholeOption(given, 'loudness', -40, -9) ?? null;
  const tempoPercent = tempoOf(given);
  const read = readInput(path, given);
  const { score } = read;
  const { arrangement, split } = splitOf(score, given);
  const stems = stemsOrderOf(arrangement, split, { ...wishOf(score, given), tempoPercent });
  if (stems === null || stems.performance.lengthSeconds === 0)
    throw new CannotDo('There is nothing to play. Nothing was written.');
  const seconds = renderedSeconds(stems);
  if (format === 'wav' && seconds * stems.sampleRate > mostWavFrames)
    throw new CannotDo(
      `${Math.round(seconds / 60)} minutes are longer than a WAV file can be; flac and mp3 hold them. Nothing was written.`,
    );
  const beside = [...foundInReading(path, read), ...stems.performance.notes.map(({ detail }) => detail)];
  return { stems, hasStems: true, format, targetLufs, mostKeptBytes, split, target, beside };
}

async function recordedRows(
  order: Order,
): Promise<{ readonly rows: readonly FileRow[]; readonly lengthSeconds: number }> {
  const nameOf = soundFileNames(activeLines(order.split), order.format);
  const pathOf = (source: FileSource): string => join(order.target, nameOf(source));
  const whole = new WholeFiles();
  try {
    whole.makeFolder(order.target);
    const { files, lengthSeconds } = await recordSound(
      order,
      (source, encoding) => openTrack(encoding, whole.open(pathOf(source))),
      () => undefined,
    );
    const sizes = whole.keep();
    const rows = files.map(({ source, levels }): FileRow => ({
      file: nameOf(source),
      holds: holds(source, order.split),
      loudnessLufs: toTenth(levels.loudnessLufs),
      truePeakDb: toTenth(levels.truePeakDb),
      bytes: sizes.get(pathOf(source)) ?? 0,
    }));
    return { rows, lengthSeconds };
  } finally {
    whole.drop();
  }
}

/** `heddle render`: the lines of a score played into sound files, each by itself and all together. */
export const render: Command = {
  name: 'render',
  summary: 'Plays the lines into sound files: each alone and all together, which the lines sum to.',
  usage: 'FILE [--lines N] [--parts A,B] [--bars A-B] [--tempo 80%] [--format wav|flac|mp3] -o DIR [--json]',
  details: `-o, --output DIR  the folder for the files; it is made where there is none
${splitDetails}
--bars A-B   only these bars; named as for write. Otherwise the whole piece
--repeats R  unfolded: repeats and jumps are followed, of some bars those within them; written: every bar once.
             Otherwise unfolded
--tempo T    a share of the written tempo, 25% to 150%
--count-in N bars of clicks before the music: 0, 1 or 2. Otherwise 0
--click      a click on every beat, in the mix and in a file of its own
--format F   wav (24 bits), flac (the same samples, packed) or mp3 (256 kbit/s). Otherwise wav
--loudness N bring the mix to N LUFS, -40 to -9, all files by the same gain; otherwise as it is played
--json       as JSON: a list of {file, holds, loudnessLufs, truePeakDb, bytes}; levels of silence are null
All files begin together and are equally long; all but the mix sum to it. None is above -1 dBTP.
${inputDetails}`,
  options: {
    ...inputOptions,
    ...splitOptions,
    bars: { type: 'string' },
    repeats: { type: 'string' },
    tempo: { type: 'string' },
    'count-in': { type: 'string' },
    click: { type: 'boolean' },
    format: { type: 'string' },
    loudness: { type: 'string' },
    output: { type: 'string', short: 'o' },
    json: { type: 'boolean' },
  },
  run: async (given) => {
    const order = orderOf(given);
    const { rows, lengthSeconds } = await recordedRows(order);
    const told = `${counted(rows.length, 'file')} of ${lengthSeconds.toFixed(1)} seconds in ${order.target}.\n`;
    return {
      out: given.options['json'] === true ? jsonRows(rows) : `${asTable(rows)}${told}`,
      beside: order.beside,
    };
  },
};
