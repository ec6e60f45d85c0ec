import {
  noMarks,
  headId,
  noteId,
  partId,
  pitchOfMidi,
  type Bar,
  type BarId,
  type Score,
  type SoundingNote,
  type SourceVoice,
  type Tuning,
} from '../../music/index.ts';
import { wholeNumbers } from '../numbers.ts';
import { guitarPart, type GuitarNote, type Lengths } from './guitar-part.ts';
import { hitsOnBeats, type AddedHit } from './hits.ts';
import { intoRange, transposed } from './range.ts';
import type { Source } from './source.ts';

/** How a source is arranged. */
export interface ArrangeOptions {
  readonly tuning: Tuning;
  readonly lengths: Lengths;
  /** A hit on about one beat in so many; 0 for none. */
  readonly hitEvery: number;
  readonly seed: number;
}

/** Music as a guitar plays it, with the lines that it was made from. */
export interface Arrangement {
  readonly id: string;
  readonly score: Score;
  /** The true lines of each note of the score, sorted; a hit is on the line `hits`. */
  readonly truth: readonly (readonly string[])[];
}

/** Strings from the highest. **Units** MIDI note numbers. **Source** common practice, no source. */
export const tunings = { standard: [64, 59, 55, 50, 45, 40], dropped: [64, 59, 55, 50, 45, 38] } as const;

const highestMidi = 78;
const widestShift = 5;

type Item =
  { readonly note: GuitarNote; readonly hit?: undefined } | { readonly hit: AddedHit; readonly note?: undefined };

const onsetOf = (item: Item): number => (item.note ?? item.hit).onsetTicks;

function beatsOf(bars: readonly Bar[], ticksPerQuarter: number): readonly number[] {
  return bars.flatMap(({ onsetTicks, lengthTicks, meter }) => {
    const beatTicks = (ticksPerQuarter * 4) / meter.beatUnit;
    return Array.from({ length: Math.floor(lengthTicks / beatTicks) }, (_, beat) => onsetTicks + beat * beatTicks);
  });
}

const voiceOf = (line: number, lineCount: number): SourceVoice => ({
  part: partId('P1'),
  staff: 1,
  voice: String(line + 1),
  stem: line === 0 || (lineCount > 3 && line === 1) ? 'up' : 'down',
});

function noteOf(
  { note }: { note: GuitarNote },
  index: number,
  bar: BarId,
  lineCount: number,
  isRinging: boolean,
): SoundingNote {
  const pitch = pitchOfMidi(note.midi, 0);
  return {
    id: noteId(`n${index + 1}`),
    bar,
    onsetTicks: note.onsetTicks,
    lengthTicks: note.lengthTicks,
    sound: {
      kind: 'pitched',
      written: { ...pitch, octave: pitch.octave + 1 },
      sounding: pitch,
      soundingMidi: note.midi,
    },
    heads: [headId(`n${index + 1}`)],
    voices: note.lines.map((line) => voiceOf(line, lineCount)),
    fingerboard: { string: note.string + 1, fret: note.fret },
    techniques: isRinging ? ['letRing'] : [],
    pluckingFinger: null,
    frettingFinger: null,
  };
}

function hitOf(
  { hit }: { hit: AddedHit },
  index: number,
  bar: BarId,
  beatTicks: number,
  lineCount: number,
): SoundingNote {
  return {
    id: noteId(`n${index + 1}`),
    bar,
    onsetTicks: hit.onsetTicks,
    lengthTicks: beatTicks,
    sound: { kind: 'hit', hit: hit.hit, isCertain: true },
    heads: [headId(`n${index + 1}`)],
    voices: [voiceOf(lineCount, lineCount)],
    fingerboard: null,
    techniques: [],
    pluckingFinger: null,
    frettingFinger: null,
  };
}

function scoreOf(source: Source, items: readonly Item[], { tuning, lengths }: ArrangeOptions): Score {
  const { ticksPerQuarter, bars, id: title, lines } = source;
  let at = 0;
  const notes = items.map((item, index) => {
    while ((bars[at + 1]?.onsetTicks ?? Infinity) <= onsetOf(item)) at++;
    const bar = (bars[at] as Bar).id;
    return item.note === undefined
      ? hitOf(item, index, bar, ticksPerQuarter, lines.length)
      : noteOf(item, index, bar, lines.length, lengths === 'ringing');
  });
  const part = {
    id: partId('P1'),
    name: 'Guitar',
    staves: ['notation', 'tablature'],
    tuning,
    capoFret: 0,
    soundingShift: -12,
    pairedWith: null,
  } as const;
  const none = { graces: [], rests: [], tempos: [], dynamics: [], ...noMarks };
  return { title, composer: '', ticksPerQuarter, parts: [part], bars, notes, ...none };
}

/** Music arranged for one guitar: moved into its range, put on strings, what no hand can play left out. The same options give the same arrangement. */
export function arrange(source: Source, options: ArrangeOptions): Arrangement {
  const { tuning, lengths, hitEvery, seed } = options;
  const shift = wholeNumbers(seed)(2 * widestShift + 1) - widestShift;
  const range = { low: tuning.at(-1) as number, high: highestMidi };
  const lines = intoRange(transposed(source.lines, shift), range);
  const played = guitarPart(lines, tuning, lengths, source.ticksPerQuarter);
  const struckAt = new Map<number, number>();
  for (const { onsetTicks } of played) struckAt.set(onsetTicks, (struckAt.get(onsetTicks) ?? 0) + 1);
  const beats = beatsOf(source.bars, source.ticksPerQuarter);
  const hits = hitEvery === 0 ? [] : hitsOnBeats(beats, struckAt, hitEvery, seed);
  const items = [...played.map((note): Item => ({ note })), ...hits.map((hit): Item => ({ hit }))];
  items.sort((a, b) => onsetOf(a) - onsetOf(b));
  const truth = items.map(({ note }) => note?.lines.map((line) => `line ${line + 1}`).sort() ?? ['hits']);
  return { id: source.id, score: scoreOf(source, items, options), truth };
}
