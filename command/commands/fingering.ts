import {
  arrangementOf,
  beatOf,
  fingeringsOf,
  type Fingering,
  type Score,
  type SoundingNote,
} from '../../music/index.ts';
import { oneFile, type Command } from '../command.ts';
import { foundInReading, inputDetails, inputOptions, readInput } from '../input.ts';
import { issueText, jsonRows, table } from '../say.ts';
import { chosenParts, partsDetails, splitOptions } from '../split-of.ts';

interface PlacedNote {
  readonly note: SoundingNote;
  readonly place: Fingering;
}

const asJson = (_: Score, placed: readonly PlacedNote[]): string =>
  jsonRows(placed.map(({ note, place: { string, fret, isProposed } }) => ({ id: note.id, string, fret, isProposed })));

function asTable(score: Score, placed: readonly PlacedNote[]): string {
  const rows = placed.map(({ note, place: { string, fret, isProposed } }) => {
    const beat = beatOf(score, note.onsetTicks);
    const inBeats = beat === null ? '' : String(Math.round(beat.beat * 1000) / 1000);
    return [`#${beat?.barOrdinal ?? ''}`, inBeats, String(string), String(fret), isProposed ? 'proposed' : ''];
  });
  return table([['bar', 'beat', 'string', 'fret', ''], ...rows]);
}

/** `heddle fingering`: where each note is played, by the file or as proposed. */
export const fingering: Command = {
  name: 'fingering',
  summary: 'Tells string and fret of each note of a guitar, proposed where the file has none.',
  usage: 'FILE [--parts A,B] [--json]',
  details: `${partsDetails}
--json       as JSON: a list of {id, string, fret, isProposed}. String 1 is the highest, frets count from the capo;
             notes without a place are left out
What a hand cannot do as it is proposed is told on stderr.
${inputDetails}`,
  options: { ...inputOptions, parts: splitOptions.parts, json: { type: 'boolean' } },
  run: (given) => {
    const path = oneFile(given);
    const read = readInput(path, given);
    const { score } = read;
    const arrangement = arrangementOf(score, chosenParts(score, given));
    const { value, issues } = fingeringsOf(arrangement);
    const placed = arrangement.notes.flatMap((note): readonly PlacedNote[] => {
      const place = value.get(note.id);
      return place === undefined ? [] : [{ note, place }];
    });
    const out = (given.options['json'] === true ? asJson : asTable)(score, placed);
    return { out, beside: [...foundInReading(path, read), ...issues.map(issueText)] };
  },
};
