import type { ExportFormat } from '../../contract/index.ts';

/** **Source** IANA's media types; MusicXML 4.0, file types. */
export const mediaTypes: Readonly<Record<ExportFormat, string>> = {
  musicxml: 'application/vnd.recordare.musicxml+xml',
  mxl: 'application/vnd.recordare.musicxml',
  midi: 'audio/midi',
  archive: 'application/zip',
};

/** How names of each kind of file end. */
export const endings: Readonly<Record<ExportFormat, string>> = {
  musicxml: '.musicxml',
  mxl: '.mxl',
  midi: '.mid',
  archive: '.zip',
};
