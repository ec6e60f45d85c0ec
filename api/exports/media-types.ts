import type { ExportFormat } from '../../contract/index.ts';

/** **Source** IANA's media types; MusicXML 4.0, file types; ABC has none, so plain text. */
export const mediaTypes: Readonly<Record<ExportFormat, string>> = {
  musicxml: 'application/vnd.recordare.musicxml+xml',
  mxl: 'application/vnd.recordare.musicxml',
  midi: 'audio/midi',
  abc: 'text/plain; charset=utf-8',
  archive: 'application/zip',
};

/** How names of each kind of file end. */
export const endings: Readonly<Record<ExportFormat, string>> = {
  musicxml: '.musicxml',
  mxl: '.mxl',
  midi: '.mid',
  abc: '.abc',
  archive: '.zip',
};
