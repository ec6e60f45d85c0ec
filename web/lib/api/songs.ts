import type { z } from 'zod';
import {
  importIssue,
  scoreFacts,
  scoreVersion,
  songDetail,
  splitSnapshot,
  type ReadingChoice,
} from '../../../contract/index.ts';
import { request, requestText } from './request.ts';
import { upload, type UploadProgress } from './upload.ts';

export type SongDetail = z.output<typeof songDetail>;
export type ScoreFacts = z.output<typeof scoreFacts>;
export type ImportIssue = z.output<typeof importIssue>;

const at = (songId: string) => `/api/songs/${songId}`;

export const fetchSong = (songId: string) => request(songDetail, at(songId));
export const changeSong = (
  songId: string,
  change: { readonly title?: string; readonly composer?: string; readonly arrangementParts?: readonly string[] },
) => request(songDetail, at(songId), { method: 'PATCH', body: change });
export const uploadScore = (songId: string, file: File, onProgress: (progress: UploadProgress) => void) =>
  upload(scoreVersion, `${at(songId)}/score`, file, onProgress);
/** Reads the score's file again, unless somebody changed the song that was seen. */
export const readScoreAgain = ({ id, version }: Pick<SongDetail, 'id' | 'version'>, choice: ReadingChoice) =>
  request(scoreVersion, `${at(id)}/score/reading`, { method: 'POST', body: choice, ifMatch: `"${version}"` });
/** The song's score as normalised MusicXML. */
export const fetchScoreText = (songId: string) => requestText(`${at(songId)}/score`);
export const fetchSplit = (songId: string) => request(splitSnapshot, `${at(songId)}/split`);
