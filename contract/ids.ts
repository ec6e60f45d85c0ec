import { z } from 'zod';

/** A UUIDv7, as every record of ours is named. */
export const uuid = z.uuid();
/** A short name that a person gave. */
export const title = z.string().trim().min(1).max(120);
/** Text that a person wrote; Markdown without HTML. */
export const prose = z.string().max(20_000);
/** A moment. **Units** ISO 8601 in UTC. */
export const instant = z.iso.datetime();
/** The unguessable end of a link, or a code, as it stands in a path. */
export const secretInLink = z.string().min(4).max(128);
