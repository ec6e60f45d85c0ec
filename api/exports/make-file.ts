import {
  activeLines,
  excerptOf,
  midiSongOf,
  packScore,
  recolouredOriginal,
  writeAbc,
  writeMidi,
  writeWrittenScore,
} from '../../music/index.ts';
import type { ExportFormat, ExportWish } from '../../contract/index.ts';
import { dyeColours } from './dye-colours.data.ts';
import { writtenLines, type SongMaterial } from './song-material.ts';

/** Bytes with sentences about what they could not say. */
export interface MadeFile {
  readonly bytes: Uint8Array;
  readonly notes: readonly string[];
}

/** The kinds of file that hold one document. */
export type DocumentFormat = Exclude<ExportFormat, 'archive'>;

const utf8 = new TextEncoder();

function documentOf(
  material: SongMaterial,
  wish: ExportWish,
): { readonly xml: string; readonly notes: readonly string[] } {
  if (wish.what !== 'score') {
    const { written, notes } = writtenLines(material, wish);
    return { xml: writeWrittenScore(written), notes };
  }
  const { normalisedXml, score, split, excerpt, isWhole } = material;
  const colours = new Map(activeLines(split).map((line) => [line.id, dyeColours[line.dye]]));
  const whole = recolouredOriginal(normalisedXml, score, split, colours);
  return { xml: isWhole ? whole : excerptOf(whole, { first: excerpt.from.bar, last: excerpt.to.bar }), notes: [] };
}

/** How each kind of file is made. */
const makers: Readonly<Record<DocumentFormat, (material: SongMaterial, wish: ExportWish) => MadeFile>> = {
  musicxml: (material, wish) => {
    const { xml, notes } = documentOf(material, wish);
    return { bytes: utf8.encode(xml), notes };
  },
  mxl: (material, wish) => {
    const { xml, notes } = documentOf(material, wish);
    return { bytes: packScore(xml), notes };
  },
  midi: (material, wish) => {
    const { written, notes } = writtenLines(material, wish);
    return { bytes: writeMidi(midiSongOf(written, { repeats: wish.repeats })), notes };
  },
  abc: (material, wish) => {
    const { written, notes } = writtenLines(material, wish);
    const { text, issues } = writeAbc(written);
    return { bytes: utf8.encode(text), notes: [...notes, ...issues.map(({ detail }) => detail)] };
  },
};

/** One document of a song, by the code that the command line uses too. */
export const makeFile = (material: SongMaterial, wish: ExportWish, format: DocumentFormat): MadeFile =>
  makers[format](material, wish);
