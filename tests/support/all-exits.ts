import { dyeColours } from '../../api/exports/dye-colours.data.ts';
import { exportEnsembles } from '../../contract/index.ts';
import type { BarId } from '../../music/basis/ids.ts';
import { fingeringsOf } from '../../music/fingering/fingerings.ts';
import { excerptOf } from '../../music/formats/musicxml/excerpt.ts';
import { writeWrittenScore } from '../../music/formats/musicxml-writer/write-written-score.ts';
import type { LengthMode } from '../../music/lines/lengths.ts';
import { recolouredOriginal } from '../../music/lines/recoloured-original.ts';
import { writeForPlayers } from '../../music/lines/write-for-players.ts';
import type { WriteOutOptions } from '../../music/lines/write-out.ts';
import { activeLines, type Split } from '../../music/operations/split.ts';
import { excerptOfBars, type Excerpt } from '../../music/score/excerpt.ts';
import type { Score } from '../../music/score/score.ts';
import type { WrittenScore } from '../../music/score/written.ts';

/** A song with its lines, as it lies in the database. */
export interface ExportedSong {
  readonly normalisedXml: string;
  readonly score: Score;
  readonly split: Split;
}

/** One document that Heddle hands out. */
export interface ExitDocument {
  readonly name: string;
  readonly xml: string;
  /** What it says, where it was written out; null where it is the original. */
  readonly written: WrittenScore | null;
}

const lengthModes: readonly LengthMode[] = ['written', 'next', 'string'];

/** All of a score, and its middle third from the second quarter of a bar to the end of another. */
function excerptsOf(score: Score): readonly (readonly [string, Excerpt])[] {
  const { bars, ticksPerQuarter } = score;
  const thirdOf = (count: number): BarId => bars[Math.floor((count * (bars.length - 1)) / 3)]!.id;
  const [whole, third] = [
    excerptOfBars(score, bars[0]!.id, bars.at(-1)!.id)!,
    excerptOfBars(score, thirdOf(1), thirdOf(2))!,
  ];
  const late: Excerpt = { ...third, from: { ...third.from, offset: { numerator: 1, denominator: 1 } } };
  const from = bars.find(({ id }) => id === third.from.bar)!;
  return [
    ['whole', whole],
    ['excerpt', from.lengthTicks > ticksPerQuarter ? late : third],
  ];
}

/** The ways in which lines are written out: each length, each ensemble, one line alone, with strings. */
function optionsOf({ score, split }: ExportedSong): readonly (readonly [string, WriteOutOptions])[] {
  const strings = { tablature: true, places: fingeringsOf(score).value };
  const alone = activeLines(split)[0];
  return [
    ...lengthModes.map((lengths) => [`lines, ${lengths}`, { lengths }] as const),
    ...lengthModes.map((lengths) => [`strings, ${lengths}`, { lengths, ...strings }] as const),
    ...Object.entries(exportEnsembles).map(
      ([name, ensemble]) => [`for ${name}`, { lengths: 'written', ensemble }] as const,
    ),
    ['for guitar, strings', { lengths: 'written', ensemble: exportEnsembles.guitar, ...strings }],
    ...(alone === undefined ? [] : [['one line', { lengths: 'next', lines: [alone.id], ...strings }] as const]),
  ];
}

/** Every MusicXML document that Heddle makes of a song. */
export function allExits(song: ExportedSong): readonly ExitDocument[] {
  const { normalisedXml, score, split } = song;
  const colours = new Map(activeLines(split).map((line) => [line.id, dyeColours[line.dye]]));
  const original = recolouredOriginal(normalisedXml, score, split, colours);
  const documents: ExitDocument[] = [{ name: 'original, whole', xml: original, written: null }];
  for (const [extent, excerpt] of excerptsOf(score)) {
    const { from, to } = excerpt;
    if (extent !== 'whole') {
      const xml = excerptOf(original, { first: from.bar, last: to.bar });
      documents.push({ name: `original, ${extent}`, xml, written: null });
    }
    for (const [way, options] of optionsOf(song)) {
      const { value } = writeForPlayers(score, split, excerpt, options);
      documents.push({ name: `${way}, ${extent}`, xml: writeWrittenScore(value), written: value });
    }
  }
  return documents;
}
