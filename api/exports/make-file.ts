import { packScore, writeWrittenScore } from '../../music/index.ts';
import type { ExportFormat, ExportWish } from '../../contract/index.ts';
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
  const { written, notes } = writtenLines(material, wish);
  return { xml: writeWrittenScore(written), notes };
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
};

/** One document of a song, by the code that the command line uses too. */
export const makeFile = (material: SongMaterial, wish: ExportWish, format: DocumentFormat): MadeFile =>
  makers[format](material, wish);
