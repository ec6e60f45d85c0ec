import {
  activeLines,
  beatOf,
  linesOfNote,
  nameOf,
  type Line,
  type Score,
  type SoundingNote,
} from '../../music/index.ts';
import { oneFile, type Command } from '../command.ts';
import { foundInReading, inputDetails, inputOptions, readInput } from '../input.ts';
import { jsonRows, table } from '../say.ts';
import { splitDetails, splitOf, splitOptions, type SplitFound } from '../split-of.ts';

interface PlacedNote {
  readonly note: SoundingNote;
  readonly line: Line | null;
}

/** Each sounding note with its line: a double-stemmed unison has a row for each stem, its lines in order from high to low. */
function placedNotes(score: Score, { split }: SplitFound): readonly PlacedNote[] {
  const lines = activeLines(split);
  return score.notes.flatMap((note) => {
    const ids = linesOfNote(split, note.id);
    const own = lines.filter(({ id }) => ids.includes(id));
    return note.voices.map((_, index): PlacedNote => ({ note, line: own[Math.min(index, own.length - 1)] ?? null }));
  });
}

const soundText = ({ sound }: SoundingNote): string =>
  sound.kind === 'pitched' ? `${nameOf(sound.sounding)}${sound.sounding.octave}` : sound.hit;

function asJson(score: Score, placed: readonly PlacedNote[]): string {
  const ordinals = new Map(score.bars.map(({ id, ordinal }) => [id, ordinal]));
  return jsonRows(
    placed.map(({ note, line }) => ({
      id: note.id,
      bar: ordinals.get(note.bar) ?? null,
      onsetQuarters: note.onsetTicks / score.ticksPerQuarter,
      midi: note.sound.kind === 'pitched' ? note.sound.soundingMidi : null,
      line: line?.letter ?? null,
    })),
  );
}

function asTable(score: Score, placed: readonly PlacedNote[]): string {
  const rows = placed.map(({ note, line }) => {
    const beat = beatOf(score, note.onsetTicks);
    const inBeats = beat === null ? '' : String(Math.round(beat.beat * 1000) / 1000);
    return [`#${beat?.barOrdinal ?? ''}`, inBeats, soundText(note), line === null ? '' : `${line.letter} ${line.name}`];
  });
  return table([['bar', 'beat', 'sounds', 'line'], ...rows]);
}

/** `heddle split`: each sounding note and the line that Heddle proposes for it. */
export const split: Command = {
  name: 'split',
  summary: 'Proposes lines for a score and tells the line of each sounding note.',
  usage: 'FILE [--lines N] [--parts A,B] [--json]',
  details: `${splitDetails}
--json       as JSON: a list of {id, bar, onsetQuarters, midi, line}. bar is the place in written order, from 1;
             onsetQuarters counts from the start of the written score; midi is the sounding pitch, null for a hit;
             line is the line’s letter, null for a note of a part that is not split
${inputDetails}`,
  options: { ...inputOptions, ...splitOptions, json: { type: 'boolean' } },
  run: (given) => {
    const path = oneFile(given);
    const read = readInput(path, given);
    const placed = placedNotes(read.score, splitOf(read.score, given));
    const out = (given.options['json'] === true ? asJson : asTable)(read.score, placed);
    return { out, beside: foundInReading(path, read) };
  },
};
