import { activeLines } from '../../../music/index.ts';
import { ensembleChoices, type ExportChoice } from './export-wish.ts';
import {
  engravers,
  served,
  type EngravedKind,
  type ExportedSong,
  type MadeFile,
  type OnProgress,
} from './make-files.ts';

interface ArchiveRow {
  readonly folder: string;
  readonly kind: EngravedKind;
  readonly of: string;
}

/** Everything that the page itself adds to the server's archive. */
function rowsOf(song: ExportedSong): readonly ArchiveRow[] {
  const whats = ['score', 'lines', ...activeLines(song.split).map(({ id }) => id)];
  const ensembles = ensembleChoices.map(({ value }) => value);
  const pages = [...whats, ...ensembles].flatMap((of): readonly ArchiveRow[] => [
    { folder: 'pages-a4', kind: 'pdfA4', of },
    { folder: 'pages-letter', kind: 'pdfLetter', of },
  ]);
  const pictures = whats.flatMap((of): readonly ArchiveRow[] => [
    { folder: 'pictures', kind: 'svg', of },
    { folder: 'pictures', kind: 'png', of },
  ]);
  return [...pages, ...pictures];
}

/** One zip of every kind of file. A picture that would be too large is told of and left out. */
export async function madeArchive(song: ExportedSong, choice: ExportChoice, onProgress: OnProgress): Promise<MadeFile> {
  const { strFromU8, strToU8, unzipSync, zipSync } = await import('fflate');
  const rows = rowsOf(song);
  const base = await served(song, choice, 'archive', onProgress);
  const files = unzipSync(base.bytes);
  const notes = [...base.notes];
  const listed: string[] = [];
  for (const [index, { folder, kind, of }] of rows.entries()) {
    onProgress({ label: 'Making everything', done: index, total: rows.length });
    try {
      const made = await engravers[kind](song, { ...choice, kind, of, lifted: null }, () => undefined);
      files[`${folder}/${made.name}`] = made.bytes;
      notes.push(...made.notes);
      listed.push(`${folder}/${made.name}`);
    } catch (thrown) {
      const why = thrown instanceof Error ? thrown.message : String(thrown);
      notes.push(`One file in ${folder} was left out: ${why}`);
    }
  }
  const contents = files['contents.txt'];
  if (contents !== undefined) files['contents.txt'] = strToU8(`${strFromU8(contents)}${listed.join('\n')}\n`);
  return { name: base.name, bytes: zipSync(files), notes: [...new Set(notes)] };
}
