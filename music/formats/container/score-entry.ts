import type { Issue, WithIssues } from '../../basis/issue.ts';
import { ok, refused, type Result } from '../../basis/result.ts';
import { fileError } from '../file-issue.ts';
import { decodeText } from '../xml/decode-text.ts';
import { parseXml } from '../xml/parse-xml.ts';
import { elementsOf, type XmlElement } from '../xml/tree.ts';
import { unpackEntry } from './unpack-entry.ts';
import type { ZipEntry } from './zip-directory.ts';

const containerName = 'META-INF/container.xml';
const musicType = 'application/vnd.recordare.musicxml+xml';

/** A path without its escapes, its backslashes and the steps to where the archive begins, which some programs write. */
function plainPath(path: string): string {
  const slashed = path.trim().replace(/\\/g, '/');
  const steps = /^(?:\.{0,2}\/)+/;
  try {
    return decodeURIComponent(slashed).replace(steps, '');
  } catch {
    return slashed.replace(steps, '');
  }
}

/** The entry of a path: by its very name, else by its plain path, else whatever the case of its letters. */
function entryOf(entries: readonly ZipEntry[], path: string): ZipEntry | undefined {
  const plain = plainPath(path);
  return (
    entries.find(({ name }) => name === path) ??
    entries.find(({ name }) => plainPath(name) === plain) ??
    entries.find(({ name }) => plainPath(name).toLowerCase() === plain.toLowerCase())
  );
}

const localNameOf = ({ name }: XmlElement): string => name.slice(name.indexOf(':') + 1);
const namedWithin = (parent: XmlElement, name: string): XmlElement[] =>
  elementsOf(parent).filter((child) => localNameOf(child) === name);

/** The path of the score that a container document names. **Source** MusicXML 4.0, compressed .mxl files: the first rootfile is the score. */
function scorePathIn(container: Uint8Array): Result<string, Issue> {
  const text = decodeText(container);
  if (!text.ok) return text;
  const document = parseXml(text.value);
  if (!document.ok) return document;
  const candidates = namedWithin(document.value.root, 'rootfiles').flatMap((list) => namedWithin(list, 'rootfile'));
  const isMusic = (type: string | undefined): boolean => type === undefined || type === musicType;
  const chosen = candidates.find((file) => isMusic(file.attributes['media-type'])) ?? candidates[0];
  const path = chosen?.attributes['full-path'];
  if (path === undefined)
    return refused(fileError('file-unreadable', 'The packed file does not say which of its files is the score.'));
  return ok(path);
}

const looksLikeScore = ({ name }: ZipEntry): boolean =>
  /\.(musicxml|xml)$/i.test(name) && !/(^|[/\\])(META-INF|__MACOSX)[/\\]/i.test(name);

/** The only score of an archive that does not lead to one as it should, with the reason why it was looked for; the reason alone where there is none or more than one. */
function onlyScore(entries: readonly ZipEntry[], reason: Issue): Result<WithIssues<ZipEntry>, Issue> {
  const [only, another] = entries.filter(looksLikeScore);
  if (only === undefined || another !== undefined) return refused(reason);
  const detail = `${reason.detail} “${only.name}” was read, the only score in it.`;
  return ok({ value: only, issues: [{ ...reason, code: 'value-repaired', severity: 'warning', detail }] });
}

/** The file of an archive that is its score, and what had to be put right to find it. **Errors** those of unpackEntry, decodeText and parseXml, and `file-unreadable`, `file-unsupported`. */
export function scoreEntry(entries: readonly ZipEntry[]): Result<WithIssues<ZipEntry>, Issue> {
  const container = entryOf(entries, containerName);
  if (container === undefined) {
    const found = entries.find(looksLikeScore);
    return found === undefined
      ? refused(fileError('file-unsupported', 'The archive holds no MusicXML score.'))
      : ok({ value: found, issues: [] });
  }
  const unpacked = unpackEntry(container);
  const path = unpacked.ok ? scorePathIn(unpacked.value) : unpacked;
  if (!path.ok) return onlyScore(entries, path.refusal);
  const found = entryOf(entries, path.value);
  if (found !== undefined) return ok({ value: found, issues: [] });
  const detail = `The packed file names “${path.value}” as its score but does not hold it.`;
  return onlyScore(entries, fileError('file-unreadable', detail));
}
