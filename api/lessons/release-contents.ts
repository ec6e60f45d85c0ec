import { Injectable } from '@nestjs/common';
import { ReleaseRepository, type ReleaseSummary } from './release.repository.ts';

/** **Units** bytes of contents that are kept in memory. */
const MOST_KEPT = 64 * 1024 * 1024;

/** The frozen contents as UTF-8 JSON; those read last stay in memory. A content never changes under its hash, and who may read it is asked before, every time. */
@Injectable()
export class ReleaseContents {
  private readonly kept = new Map<string, Buffer>();
  private keptBytes = 0;

  constructor(private readonly releases: ReleaseRepository) {}

  /** Null where the release is gone. */
  async of({ id, contentHash }: Pick<ReleaseSummary, 'id' | 'contentHash'>): Promise<Buffer | null> {
    const known = this.kept.get(contentHash);
    if (known !== undefined) {
      this.kept.delete(contentHash);
      this.kept.set(contentHash, known);
      return known;
    }
    const content = await this.releases.contentOf(id);
    if (content === null) return null;
    const bytes = Buffer.from(content);
    this.keep(contentHash, bytes);
    return bytes;
  }

  private keep(contentHash: string, bytes: Buffer): void {
    if (this.kept.has(contentHash)) return; // another request was quicker
    this.kept.set(contentHash, bytes);
    this.keptBytes += bytes.byteLength;
    for (const [oldest, old] of this.kept) {
      if (this.keptBytes <= MOST_KEPT) return;
      this.kept.delete(oldest);
      this.keptBytes -= old.byteLength;
    }
  }
}
