import { once } from 'node:events';
import { createWriteStream, readFileSync, renameSync } from 'node:fs';
import { finished } from 'node:stream/promises';
import { unzipSync, Zip, ZipDeflate } from 'fflate';
import { z } from 'zod';
import { StartFailure } from '../failure.ts';

/** What an archive says of itself. Tables lie beside it as `tables/NAME.csv`, with a header line, in Postgres' own CSV. */
export const manifestSchema = z.object({
  format: z.literal('heddle-backup'),
  schema: z.literal(1),
  writtenAt: z.string(),
  migrations: z.array(z.string()),
  tables: z.array(z.object({ name: z.string(), columns: z.array(z.string()), rows: z.int() })),
  sequences: z.array(z.object({ name: z.string(), value: z.string().nullable() })),
});
export type Manifest = z.output<typeof manifestSchema>;

/** A zip file that grows piece by piece and appears under its name only when it is whole. */
export class ArchiveWriter {
  readonly #zip: Zip;
  readonly #file;
  readonly #path: string;

  constructor(path: string) {
    this.#path = path;
    this.#file = createWriteStream(`${path}.part`, { mode: 0o600 });
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
      if (this.#file.writableNeedDrain) await once(this.#file, 'drain');
    }
    entry.push(new Uint8Array(0), true);
  }

  async close(): Promise<void> {
    this.#zip.end();
    await finished(this.#file);
    renameSync(`${this.#path}.part`, this.#path);
  }
}

/** The files of an archive by name. **Errors** `StartFailure` where it cannot be read. */
export function readArchive(path: string): {
  readonly manifest: Manifest;
  readonly files: Readonly<Record<string, Uint8Array>>;
} {
  try {
    const files = unzipSync(readFileSync(path));
    const manifest = manifestSchema.parse(JSON.parse(new TextDecoder().decode(files['manifest.json'])));
    return { manifest, files };
  } catch (error) {
    throw new StartFailure(
      `${path} is not a whole Heddle backup (${(error as Error).message.slice(0, 200)}). Nothing was changed.`,
    );
  }
}
