import { randomBytes } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** The key that signs sessions of this data folder, made on the first start and kept beside the data. */
export function keptSecret(dataFolder: string): string {
  const file = join(dataFolder, 'session.secret');
  if (!existsSync(file)) writeFileSync(file, randomBytes(48).toString('base64url'), { mode: 0o600 });
  return readFileSync(file, 'utf8').trim();
}
