/** One file within a ZIP archive, as its central directory tells. **Source** PKWARE APPNOTE 6.3.10, sections 4.3.7, 4.3.12, 4.3.16. */
export interface ZipEntry {
  readonly name: string;
  /** 0 stored, 8 deflated. */
  readonly method: number;
  readonly isEncrypted: boolean;
  readonly packedBytes: Uint8Array;
}

const endSignature = 0x06054b50;
const entrySignature = 0x02014b50;
const localSignature = 0x04034b50;
const endLength = 22;
const longestComment = 0xffff;

function findEnd(view: DataView): number | null {
  const last = view.byteLength - endLength;
  for (let at = last; at >= Math.max(0, last - longestComment); at -= 1) {
    if (view.getUint32(at, true) === endSignature) return at;
  }
  return null;
}

function packedBytesAt(bytes: Uint8Array, view: DataView, localAt: number, length: number): Uint8Array | null {
  if (localAt + 30 > view.byteLength || view.getUint32(localAt, true) !== localSignature) return null;
  const start = localAt + 30 + view.getUint16(localAt + 26, true) + view.getUint16(localAt + 28, true);
  return start + length <= bytes.byteLength ? bytes.subarray(start, start + length) : null;
}

interface EntryRecord {
  readonly entry: ZipEntry;
  readonly nextAt: number;
}

function readEntry(bytes: Uint8Array, view: DataView, at: number): EntryRecord | null {
  if (at + 46 > view.byteLength || view.getUint32(at, true) !== entrySignature) return null;
  const nameLength = view.getUint16(at + 28, true);
  const nextAt = at + 46 + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  if (nextAt > view.byteLength) return null;
  const packedBytes = packedBytesAt(bytes, view, view.getUint32(at + 42, true), view.getUint32(at + 20, true));
  if (packedBytes === null) return null;
  const name = new TextDecoder('utf-8').decode(bytes.subarray(at + 46, at + 46 + nameLength));
  const isEncrypted = (view.getUint16(at + 8, true) & 1) === 1;
  return { entry: { name, method: view.getUint16(at + 10, true), isEncrypted, packedBytes }, nextAt };
}

/** Whether bytes begin as a ZIP archive does. */
export const isZip = (bytes: Uint8Array): boolean =>
  bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 0x03 && bytes[3] === 0x04;

/** The files of an archive in the order of its directory, or null where the directory is missing or broken. */
export function readZipDirectory(bytes: Uint8Array): readonly ZipEntry[] | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = findEnd(view);
  if (end === null) return null;
  const count = view.getUint16(end + 10, true);
  const entries: ZipEntry[] = [];
  let at = view.getUint32(end + 16, true);
  for (let index = 0; index < count; index += 1) {
    const record = readEntry(bytes, view, at);
    if (record === null) return null;
    entries.push(record.entry);
    at = record.nextAt;
  }
  return entries;
}
