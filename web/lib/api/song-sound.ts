import { ownMixes, songSound, type OwnMixes, type SongSound } from '../../../contract/index.ts';
import { requestVersioned } from './request.ts';

const ofSong = (songId: string) => `/api/songs/${songId}/sound`;
const ofRelease = (releaseId: string) => `/api/releases/${releaseId}/own-mixes`;

/** How a song is played, and its named mixes. */
export const fetchSongSound = (songId: string) => requestVersioned(songSound, ofSong(songId));
/** Keeps a song's sound if it is still at `etag`. **Errors** `changed-meanwhile`. */
export const saveSongSound = (songId: string, body: SongSound, etag: string) =>
  requestVersioned(songSound, ofSong(songId), { method: 'PUT', body, ifMatch: etag });
/** One's own mixes for a release's lesson. */
export const fetchOwnMixes = (releaseId: string) => requestVersioned(ownMixes, ofRelease(releaseId));
/** Keeps one's own mixes if they are still at `etag`. **Errors** `changed-meanwhile`. */
export const saveOwnMixes = (releaseId: string, body: OwnMixes, etag: string) =>
  requestVersioned(ownMixes, ofRelease(releaseId), { method: 'PUT', body, ifMatch: etag });
