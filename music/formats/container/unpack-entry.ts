import { Inflate } from 'fflate';
import type { Issue } from '../../basis/issue.ts';
import { ok, refused, type Result } from '../../basis/result.ts';
import { fileError } from '../file-issue.ts';
import { limits } from '../limits.ts';
import type { ZipEntry } from './zip-directory.ts';

const sliceBytes = 16 * 1024;
const ratioFreeBytes = 1024 * 1024;
const megabytes = (bytes: number): string => `${Math.round(bytes / 1024 / 1024)} MB`;

class UnpackedTooLarge extends Error {}

function joined(chunks: readonly Uint8Array[], length: number): Uint8Array {
  const whole = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.byteLength;
  }
  return whole;
}

interface Unpacking {
  readonly chunks: Uint8Array[];
  length: number;
  isComplete: boolean;
}

function inflateWithin(packed: Uint8Array): Uint8Array | null {
  const unpacking: Unpacking = { chunks: [], length: 0, isComplete: false };
  const cap = Math.min(limits.unpackedBytes, Math.max(ratioFreeBytes, packed.byteLength * limits.unpackRatio));
  const stream = new Inflate((chunk, isLast) => {
    unpacking.length += chunk.byteLength;
    if (unpacking.length > cap) throw new UnpackedTooLarge();
    unpacking.chunks.push(chunk);
    unpacking.isComplete = isLast;
  });
  for (let at = 0; at < packed.byteLength; at += sliceBytes) {
    if (unpacking.isComplete) break;
    stream.push(packed.subarray(at, at + sliceBytes), at + sliceBytes >= packed.byteLength);
  }
  return unpacking.isComplete ? joined(unpacking.chunks, unpacking.length) : null;
}

function inflated(entry: ZipEntry): Result<Uint8Array, Issue> {
  const broken = refused(fileError('file-unreadable', `“${entry.name}” in the packed file is damaged or cut short.`));
  try {
    const bytes = inflateWithin(entry.packedBytes);
    return bytes === null ? broken : ok(bytes);
  } catch (error) {
    if (!(error instanceof UnpackedTooLarge)) return broken;
    const detail =
      `“${entry.name}” in the packed file unpacks to more than ${megabytes(limits.unpackedBytes)}, ` +
      `or to more than ${limits.unpackRatio} times its packed size.`;
    return refused(fileError('file-too-large', detail));
  }
}

/** The bytes of one file of an archive, unpacked piece by piece so that no archive can fill the memory. **Errors** `file-too-large`, `file-unreadable`, `file-unsupported`. */
export function unpackEntry(entry: ZipEntry): Result<Uint8Array, Issue> {
  if (entry.isEncrypted)
    return refused(fileError('file-unsupported', `“${entry.name}” in the packed file is encrypted.`));
  if (entry.method === 0) return ok(entry.packedBytes);
  if (entry.method === 8) return inflated(entry);
  return refused(
    fileError('file-unsupported', `“${entry.name}” is packed by method ${entry.method}, which is not supported.`),
  );
}
