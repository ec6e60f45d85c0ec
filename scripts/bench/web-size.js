import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { root } from '../ensure.js';
import { row, shown } from './measure.js';

const folder = join(root, 'dist', 'web');

/** What the browser loads before any score: everything that index.html names and what those import at once. */
export function bench() {
  const page = readFileSync(join(folder, 'index.html'), 'utf8');
  const named = [...page.matchAll(/(?:src|href)="\/(assets\/[^"]+\.(?:js|css))"/g)].map((match) => match[1]);
  const bytes = named.reduce(
    (sum, name) => sum + gzipSync(readFileSync(join(folder, name))).length,
    gzipSync(page).length,
  );
  const lazy = readdirSync(join(folder, 'assets')).filter(
    (name) => name.endsWith('.js') && !named.includes(`assets/${name}`),
  ).length;
  return [
    row(
      'web, first load without a score',
      '≤ 200 kB gzip',
      `${shown(bytes / 1000)} kB`,
      bytes <= 200_000,
      `${lazy} chunks wait`,
    ),
  ];
}
