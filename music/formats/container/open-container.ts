import type { Issue } from '../../basis/issue.ts';
import { ok, refused, type Result } from '../../basis/result.ts';
import { fileError } from '../file-issue.ts';
import { limits } from '../limits.ts';
import { decodeText } from '../xml/decode-text.ts';
import { parseXml } from '../xml/parse-xml.ts';
import { childOf, childrenOf } from '../xml/tree.ts';
import { unpackEntry } from './unpack-entry.ts';
import { isZip, readZipDirectory, type ZipEntry } from './zip-directory.ts';

const containerName = 'META-INF/container.xml';
const musicType = 'application/vnd.recordare.musicxml+xml';
const tooLarge = (what: string, bytes: number): Issue =>
  fileError('file-too-large', `The file is larger than the ${bytes / 1024 / 1024} MB that ${what} may have.`);

/** The path of the score that a container document names. **Source** MusicXML 4.0, compressed .mxl files: the first rootfile is the score. */
function scorePathIn(container: Uint8Array): Result<string, Issue> {
  const text = decodeText(container);
  if (!text.ok) return text;
  const document = parseXml(text.value);
  if (!document.ok) return document;
  const rootFiles = childOf(document.value.root, 'rootfiles');
  const candidates = rootFiles === undefined ? [] : childrenOf(rootFiles, 'rootfile');
  const isMusic = (type: string | undefined): boolean => type === undefined || type === musicType;
  const chosen = candidates.find((file) => isMusic(file.attributes['media-type'])) ?? candidates[0];
  const path = chosen?.attributes['full-path'];
  if (path === undefined)
    return refused(fileError('file-unreadable', 'The packed file does not say which of its files is the score.'));
  return ok(path);
}

const looksLikeScore = ({ name }: ZipEntry): boolean =>
  /\.(musicxml|xml)$/i.test(name) && !/(^|\/)(META-INF|__MACOSX)\//.test(name);

function scoreEntry(entries: readonly ZipEntry[]): Result<ZipEntry, Issue> {
  const container = entries.find(({ name }) => name === containerName);
  if (container === undefined) {
    const found = entries.find(looksLikeScore);
    return found === undefined
      ? refused(fileError('file-unsupported', 'The archive holds no MusicXML score.'))
      : ok(found);
  }
  const unpacked = unpackEntry(container);
  if (!unpacked.ok) return unpacked;
  const path = scorePathIn(unpacked.value);
  if (!path.ok) return path;
  const found = entries.find(({ name }) => name === path.value);
  return found === undefined
    ? refused(fileError('file-unreadable', `The packed file names “${path.value}” as its score but does not hold it.`))
    : ok(found);
}

/** The bytes of the score document: those within a packed .mxl file, or the bytes themselves where they are not packed. **Errors** `file-too-large`, `file-unreadable`, `file-unsupported`, and those of parseXml about the container. */
export function openContainer(bytes: Uint8Array): Result<Uint8Array, Issue> {
  if (bytes.byteLength === 0) return refused(fileError('file-unreadable', 'The file is empty.'));
  if (!isZip(bytes)) {
    return bytes.byteLength > limits.unpackedBytes ? refused(tooLarge('a score', limits.unpackedBytes)) : ok(bytes);
  }
  if (bytes.byteLength > limits.packedBytes) return refused(tooLarge('a packed score', limits.packedBytes));
  const entries = readZipDirectory(bytes);
  if (entries === null)
    return refused(
      fileError('file-unreadable', 'The packed file is damaged or cut short: its directory cannot be read.'),
    );
  const entry = scoreEntry(entries);
  return entry.ok ? unpackEntry(entry.value) : entry;
}
