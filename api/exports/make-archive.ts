import { strToU8, zipSync, type Zippable } from 'fflate';
import { activeLines, linesWithNotes } from '../../music/index.ts';
import { exportEnsemble, type ExportWish } from '../../contract/index.ts';
import { fileStem } from './file-names.ts';
import { makeFile, type DocumentFormat, type MadeFile } from './make-file.ts';
import { endings } from './media-types.ts';
import type { SongMaterial } from './song-material.ts';

interface ArchiveRow {
  readonly path: string;
  readonly about: string;
  readonly format: DocumentFormat;
  readonly wish: ExportWish;
}

const everyFormat: readonly DocumentFormat[] = ['musicxml', 'mxl', 'midi', 'abc'];

/** Every document that a song gives. */
function rowsOf(material: SongMaterial, wish: ExportWish): readonly ArchiveRow[] {
  const plain: ExportWish = { ...wish, what: 'lines', line: undefined, ensemble: undefined };
  const row = (stem: string, about: string, format: DocumentFormat, asked: ExportWish): ArchiveRow => ({
    path: `${stem}${endings[format]}`,
    about,
    format,
    wish: asked,
  });
  const named = new Set<string>();
  const nameOf = (name: string): string => {
    const stem = fileStem(name);
    const free =
      [stem, ...Array.from({ length: 20 }, (_, index) => `${stem}-${index + 2}`)].find((one) => !named.has(one)) ??
      stem;
    named.add(free);
    return free;
  };
  const lines = linesWithNotes(material.score, material.split, material.excerpt).flatMap((line) => {
    const stem = `lines/${nameOf(`${line.letter} ${line.name}`)}`;
    return everyFormat.map((format) =>
      row(stem, `${line.name}, written out`, format, { ...plain, what: 'line', line: line.id }),
    );
  });
  return [
    row('score-in-colours', 'the score with its lines’ colours and a voice for each', 'musicxml', {
      ...plain,
      what: 'score',
    }),
    ...everyFormat.map((format) => row('all-lines', 'the lines written out, a staff for each', format, plain)),
    ...lines,
    ...exportEnsemble.options.map((ensemble) =>
      row(`ensembles/${fileStem(ensemble.replace(/([A-Z])/g, ' $1'))}`, 'the lines set for this ensemble', 'musicxml', {
        ...plain,
        what: 'ensemble',
        ensemble,
      }),
    ),
  ];
}

/** What lies in the archive and what could not be said, for people. */
function contentsText(material: SongMaterial, made: readonly (ArchiveRow & MadeFile)[]): string {
  const lines = made.map(({ path, about, notes }) =>
    [`${path}: ${about}`, ...notes.map((note) => `    ${note}`)].join('\n'),
  );
  const who = material.composer === '' ? '' : ` by ${material.composer}`;
  const count = activeLines(material.split).length;
  return [`${material.title}${who}, ${count} lines`, '', ...lines, ''].join('\n');
}

/** The moment that every entry carries, so that the same song gives the same bytes. */
const mtime = '1980-01-02T00:00';

/** A zip of every document that a song gives, with the file that was uploaded and a list of contents. */
export function makeArchive(
  material: SongMaterial,
  wish: ExportWish,
  original: { readonly name: string; readonly bytes: Uint8Array } | null,
): MadeFile {
  const made = rowsOf(material, wish).map((row) => ({ ...row, ...makeFile(material, row.wish, row.format) }));
  const files: Zippable = Object.fromEntries(made.map(({ path, bytes }) => [path, [bytes, { mtime }]]));
  if (original !== null) files[`as-it-came/${original.name.replace(/[\\/]/g, '-')}`] = [original.bytes, { mtime }];
  files['contents.txt'] = [strToU8(contentsText(material, made)), { mtime }];
  return { bytes: zipSync(files), notes: [...new Set(made.flatMap(({ notes }) => notes))] };
}
