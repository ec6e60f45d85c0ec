import { exportNotes, type ExportEnsemble, type ExportFormat, type ExportWhat } from '../../../contract/index.ts';
import type { Excerpt, LengthMode, LineId, Place } from '../../../music/index.ts';
import { requestFile } from './request.ts';

/** A file that the server is asked for. */
export interface ExportRequest {
  readonly what: ExportWhat;
  readonly format: ExportFormat;
  readonly line: LineId | null;
  readonly ensemble: ExportEnsemble | null;
  /** Null for the whole song. */
  readonly excerpt: Excerpt | null;
  readonly lengths: LengthMode;
  readonly hasTablature: boolean;
  readonly isUnfolded: boolean;
}

/** A file with sentences about what it could not say. */
export interface ExportedFile {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly notes: readonly string[];
}

const placeText = ({ bar, offset }: Place): string => `${bar}+${offset.numerator}/${offset.denominator}`;

function queryOf({ what, format, line, ensemble, excerpt, lengths, hasTablature, isUnfolded }: ExportRequest): string {
  const query = new URLSearchParams({ what, format, lengths });
  if (line !== null) query.set('line', line);
  if (ensemble !== null) query.set('ensemble', ensemble);
  if (excerpt !== null) {
    query.set('from', placeText(excerpt.from));
    query.set('to', placeText(excerpt.to));
  }
  if (hasTablature) query.set('tablature', 'with');
  if (isUnfolded) query.set('repeats', 'unfolded');
  return query.toString();
}

/** Asks the server for a file of a song. */
export async function fetchExport(songId: string, asked: ExportRequest): Promise<ExportedFile> {
  const { name, bytes, headers } = await requestFile(`/api/songs/${songId}/export?${queryOf(asked)}`);
  const told: unknown = JSON.parse(decodeURIComponent(headers.get('heddle-notes') ?? '%5B%5D'));
  return { name, bytes, notes: exportNotes.parse(told) };
}
