import { activeLines } from '../../music/index.ts';
import { fileStem } from '../exports/file-names.ts';
import { makeArchive } from '../exports/make-archive.ts';
import { makeFile } from '../exports/make-file.ts';
import { endings } from '../exports/media-types.ts';
import { materialOf, type SongMaterial } from '../exports/song-material.ts';
import type { Exported, ExportJob, NothingExported } from './jobs.ts';

const MOST_NOTES = 20;
const LONGEST_NOTE = 500;

const spaced = (name = ''): string => name.replace(/([A-Z])/g, ' $1');

function nameOf({ title, split }: SongMaterial, { wish }: ExportJob): string {
  const line = activeLines(split).find(({ id }) => id === wish.line);
  const end = { score: 'in colours', lines: 'lines', line: line?.name ?? '', ensemble: spaced(wish.ensemble) }[
    wish.what
  ];
  return `${fileStem(wish.format === 'archive' ? title : `${title} ${end}`)}${endings[wish.format]}`;
}

/** Makes the file that is wished for. */
export function exportFile(job: ExportJob): Exported | NothingExported {
  const { wish } = job;
  const material = materialOf(job);
  if (material === null) return { kind: 'nothingExported', why: 'noSuchBars' };
  const isThere = wish.line === undefined || activeLines(material.split).some(({ id }) => id === wish.line);
  if (!isThere) return { kind: 'nothingExported', why: 'noSuchLine' };
  const { bytes, notes } =
    wish.format === 'archive' ? makeArchive(material, wish, job.original) : makeFile(material, wish, wish.format);
  const told = notes.slice(0, MOST_NOTES).map((note) => note.slice(0, LONGEST_NOTE));
  return { kind: 'exported', name: nameOf(material, job), bytes, notes: told };
}
