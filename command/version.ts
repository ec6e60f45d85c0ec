import { existsSync, readFileSync } from 'node:fs';

/** Seen from the sources, and from what is built of them. */
const places = ['../package.json', '../../package.json'];

/** The version of Heddle, as its package says. */
export function version(): string {
  const path = places.map((place) => new URL(place, import.meta.url)).find((url) => existsSync(url));
  if (path === undefined) throw new Error('There is no package.json beside the sources.');
  return (JSON.parse(readFileSync(path, 'utf8')) as { readonly version: string }).version;
}
