import { randomBytes } from 'node:crypto';
import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const SHORTEST = 32;

/** The key that signs sessions of this data folder, made on the first start and kept beside the data. */
export function keptSecret(dataFolder: string): string {
  const file = join(dataFolder, 'session.secret');
  if (!existsSync(file) || readFileSync(file, 'utf8').trim().length < SHORTEST) {
    const made = `${file}.${process.pid}`;
    writeFileSync(made, randomBytes(48).toString('base64url'), { mode: 0o600, flush: true });
    renameSync(made, file); // never half written, whenever the machine stops
  }
  return readFileSync(file, 'utf8').trim();
}
