import type { Issue } from '../../basis/issue.ts';
import { ok, refused, type Result } from '../../basis/result.ts';
import { fileError } from '../file-issue.ts';

const encodings: Readonly<Record<string, string>> = {
  'utf-8': 'utf-8',
  utf8: 'utf-8',
  'us-ascii': 'utf-8',
  ascii: 'utf-8',
  'iso-8859-1': 'windows-1252',
  'windows-1252': 'windows-1252',
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

/** The text of a file in UTF-8, UTF-16 or Latin-1, without its byte order mark. **Errors** `file-unsupported`, `file-unreadable`. */
export function decodeText(bytes: Uint8Array): Result<string, Issue> {
  const declared = declaredEncoding(bytes) ?? 'utf-8';
  const label = encodingOfStart(bytes) ?? encodings[declared];
  if (label === undefined) {
    return refused(
      fileError('file-unsupported', `The text encoding “${declared}” is not supported; save the file as UTF-8.`),
    );
  }
  try {
    return ok(new TextDecoder(label, { fatal: true }).decode(bytes));
  } catch {
    return refused(fileError('file-unreadable', `The file is no text in ${label.toUpperCase()}.`));
  }
}
