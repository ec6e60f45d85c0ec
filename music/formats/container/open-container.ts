import type { Issue, WithIssues } from '../../basis/issue.ts';
import { ok, refused, type Result } from '../../basis/result.ts';
import { fileError } from '../file-issue.ts';
import { limits } from '../limits.ts';
import { scoreEntry } from './score-entry.ts';
import { unpackEntry } from './unpack-entry.ts';
import { isZip, readZipDirectory } from './zip-directory.ts';

const tooLarge = (what: string, bytes: number): Issue =>
  fileError('file-too-large', `The file is larger than the ${bytes / 1024 / 1024} MB that ${what} may have.`);

/** The bytes of the score document: those within a packed .mxl file, or the bytes themselves where they are not packed; and what had to be put right to find it. **Errors** `file-too-large`, `file-unreadable`, `file-unsupported`, and those of scoreEntry. */
export function openContainer(bytes: Uint8Array): Result<WithIssues<Uint8Array>, Issue> {
  if (bytes.byteLength === 0) return refused(fileError('file-unreadable', 'The file is empty.'));
  if (!isZip(bytes)) {
    if (bytes.byteLength > limits.unpackedBytes) return refused(tooLarge('a score', limits.unpackedBytes));
    return ok({ value: bytes, issues: [] });
  }
  if (bytes.byteLength > limits.packedBytes) return refused(tooLarge('a packed score', limits.packedBytes));
  const entries = readZipDirectory(bytes);
  if (entries === null)
    return refused(
      fileError('file-unreadable', 'The packed file is damaged or cut short: its directory cannot be read.'),
    );
  const entry = scoreEntry(entries);
  if (!entry.ok) return entry;
  const unpacked = unpackEntry(entry.value.value);
  return unpacked.ok ? ok({ value: unpacked.value, issues: entry.value.issues }) : unpacked;
}
