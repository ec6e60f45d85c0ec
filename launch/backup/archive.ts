import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { createWriteStream, readFileSync, renameSync, rmSync } from 'node:fs';
import { finished } from 'node:stream/promises';
import { unzipSync, Zip, ZipDeflate } from 'fflate';
import { z } from 'zod';
import { StartFailure } from '../failure.ts';

/** What an archive says of itself. Tables lie beside it as `tables/NAME.csv`, with a header line, in Postgres' own CSV; their hashes tell a damaged one. */
export const manifestSchema = z.object({
  format: z.literal('heddle-backup'),
  schema: z.literal(1),
  writtenAt: z.string(),
  migrations: z.array(z.string()),
  tables: z.array(z.object({ name: z.string(), columns: z.array(z.string()), rows: z.int(), sha256: z.string() })),
  sequences: z.array(z.object({ name: z.string(), value: z.string().nullable() })),
});
export type Manifest = z.output<typeof manifestSchema>;

/** A zip file that grows piece by piece and appears under its name only when it is whole. */
export class ArchiveWriter {
  readonly #zip: Zip;
  readonly #file;
  readonly #path: string;
  #failure: Error | null = null;

  constructor(path: string) {
    this.#path = path;
    this.#file = createWriteStream(`${path}.part`, { mode: 0o600, flush: true });
    this.#file.on('error', (error) => (this.#failure ??= error));
    this.#zip = new Zip((error, chunk, isLast) => {
      if (error !== null) this.#file.destroy(error);
      else if (isLast) this.#file.end(chunk);
      else this.#file.write(chunk);
    });
  }

  async add(name: string, chunks: AsyncIterable<Uint8Array> | Iterable<Uint8Array>): Promise<void> {
    const entry = new ZipDeflate(name, { level: 6 });
    this.#zip.add(entry);
    for await (const chunk of chunks) {
      entry.push(chunk);
      if (this.#failure === null && this.#file.writableNeedDrain) await once(this.#file, 'drain');
      if (this.#failure !== null) throw this.#refusal(this.#failure);
    }
    entry.push(new Uint8Array(0), true);
  }

  /** Takes away what was written so far. */
  discard(): void {
    this.#file.destroy();
    rmSync(`${this.#path}.part`, { force: true });
  }

  #refusal(error: Error): StartFailure {
    return new StartFailure(`The backup could not be written to ${this.#path} (${error.message}).`);
  }

  async close(): Promise<void> {
    this.#zip.end();
    try {
      await finished(this.#file);
    } catch (error) {
      throw this.#refusal(this.#failure ?? (error as Error));
    }
    renameSync(`${this.#path}.part`, this.#path);
  }
}

/** A whole archive: what it says of itself, and its files by name. */
export interface Archive {
  readonly manifest: Manifest;
  readonly files: Readonly<Record<string, Uint8Array>>;
}

/** Reads an archive and holds every table to its hash. **Errors** `StartFailure` where it is not whole. */
export function readArchive(path: string): Archive {
  try {
    const files = unzipSync(readFileSync(path));
    const manifest = manifestSchema.parse(JSON.parse(new TextDecoder().decode(files['manifest.json'])));
    for (const { name, sha256 } of manifest.tables) {
      const table = files[`tables/${name}.csv`];
      if (table === undefined || createHash('sha256').update(table).digest('hex') !== sha256)
        throw new Error(`the table ${name} is missing or damaged`);
    }
    return { manifest, files };
  } catch (error) {
    throw new StartFailure(
      `${path} is not a whole Heddle backup (${(error as Error).message.slice(0, 200)}). Nothing was changed.`,
    );
  }
}
