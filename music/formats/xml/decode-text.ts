import type { Issue, WithIssues } from '../../basis/issue.ts';
import { ok, refused, type Result } from '../../basis/result.ts';
import { fileError } from '../file-issue.ts';

const encodings: Readonly<Record<string, string>> = {
  'utf-8': 'utf-8',
  utf8: 'utf-8',
  'us-ascii': 'utf-8',
  ascii: 'utf-8',
  'iso-8859-1': 'windows-1252',
  'iso8859-1': 'windows-1252',
  'latin-1': 'windows-1252',
  latin1: 'windows-1252',
  'windows-1252': 'windows-1252',
  cp1252: 'windows-1252',
};

/** The encoding that the first bytes show: a byte order mark, or the zero bytes of UTF-16. */
function encodingOfStart(bytes: Uint8Array): string | null {
  const [first, second, third] = bytes;
  if (first === 0xef && second === 0xbb && third === 0xbf) return 'utf-8';
  if (first === 0xff && second === 0xfe) return 'utf-16le';
  if (first === 0xfe && second === 0xff) return 'utf-16be';
  if (first === 0x3c && second === 0x00) return 'utf-16le';
  if (first === 0x00 && second === 0x3c) return 'utf-16be';
  return null;
}

function declaredEncoding(bytes: Uint8Array): string | null {
  const start = String.fromCharCode(...bytes.subarray(0, 200));
  return /^<\?xml[^>]*?\sencoding\s*=\s*["']([^"']+)["']/.exec(start)?.[1]?.toLowerCase() ?? null;
}

/** A declared name that says two or four bytes a letter, where the declaration itself was read in single bytes, is wrong. */
const isWide = (declared: string): boolean => /^(?:utf-?16|utf-?32|ucs-?[24]|iso-10646)/.test(declared);

const mistaken = (detail: string): Issue => ({
  code: 'value-repaired',
  where: { kind: 'file' },
  severity: 'warning',
  detail,
});

const utf8 = new TextDecoder('utf-8', { fatal: true });

function decoderOf(label: string): TextDecoder | null {
  if (label === 'utf-8') return utf8;
  try {
    return new TextDecoder(label, { fatal: true });
  } catch {
    return null;
  }
}

function textIn(bytes: Uint8Array, decoder: TextDecoder): string | null {
  try {
    return decoder.decode(bytes);
  } catch {
    return null;
  }
}

const looksLikeScore = (text: string): boolean => /<(?:[\w.-]+:)?score-(?:partwise|timewise)\b/.test(text);

/** A score in bytes of an encoding other than the one it declares: Western letters, as old programs write them; null where it is none. */
function westernText(bytes: Uint8Array): string | null {
  const decoder = decoderOf('windows-1252');
  const text = decoder === null ? null : textIn(bytes, decoder);
  return text !== null && looksLikeScore(text) ? text : null;
}

/** The text of a file in the encoding that its first bytes show or that it declares, without its byte order mark; a wrong declaration is put right and told. **Errors** `file-unsupported`, `file-unreadable`. */
export function decodeRepaired(bytes: Uint8Array): Result<WithIssues<string>, Issue> {
  const declared = declaredEncoding(bytes) ?? 'utf-8';
  const shown = encodingOfStart(bytes);
  const isMistaken = shown === null && isWide(declared);
  const label = shown ?? (isMistaken ? 'utf-8' : (encodings[declared] ?? declared));
  const decoder = decoderOf(label);
  if (decoder === null) {
    return refused(
      fileError('file-unsupported', `The text encoding “${declared}” is not supported; save the file as UTF-8.`),
    );
  }
  const text = textIn(bytes, decoder);
  const wrongName = `The file calls its text ${declared.toUpperCase()}, which it is not; `;
  if (text !== null)
    return ok({ value: text, issues: isMistaken ? [mistaken(`${wrongName}it was read as UTF-8.`)] : [] });
  const western = westernText(bytes);
  if (western === null) return refused(fileError('file-unreadable', `The file is no text in ${label.toUpperCase()}.`));
  return ok({
    value: western,
    issues: [mistaken(`${wrongName}it was read as Western European text. Check its words.`)],
  });
}

/** The text of a file as decodeRepaired gives it. **Errors** `file-unsupported`, `file-unreadable`. */
export function decodeText(bytes: Uint8Array): Result<string, Issue> {
  const decoded = decodeRepaired(bytes);
  return decoded.ok ? ok(decoded.value.value) : decoded;
}
