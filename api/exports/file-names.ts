const LONGEST_STEM = 80;

/** A title as the stem of a file's name: letters and figures of any script in lower case, hyphens for all else, nothing that a file system or a header could take for something other than a name. */
export function fileStem(title: string): string {
  const words = title
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '');
  const stem = Array.from(words).slice(0, LONGEST_STEM).join('').replace(/-+$/, '');
  return stem === '' ? 'song' : stem;
}

const asciiOf = (name: string): string => {
  const plain = name
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .replace(/[^A-Za-z0-9.-]+/g, '-')
    .replace(/^-+/, '');
  return plain.startsWith('.') || plain === '' ? `song${plain}` : plain;
};

/** The header that lets a browser save a file under a name, also one that knows ASCII only. **Source** RFC 6266, 4.3; RFC 8187. */
export const attachment = (name: string): string =>
  `attachment; filename="${asciiOf(name)}"; filename*=UTF-8''${encodeURIComponent(name).replace(/[!'()*]/g, (sign) => `%${sign.charCodeAt(0).toString(16)}`)}`;
