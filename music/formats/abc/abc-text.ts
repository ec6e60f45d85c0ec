import { htmlEntities } from '../xml/html-entities.ts';

/** What a sign before a letter puts onto it, as a combining character. **Source** ABC 2.1, text strings: accents, from memory. */
const accents: Readonly<Record<string, string>> = {
  '`': '\u0300',
  "'": '\u0301',
  '^': '\u0302',
  '~': '\u0303',
  '"': '\u0308',
  c: '\u0327',
  u: '\u0306',
  v: '\u030C',
  H: '\u030B',
};

/** Letters of their own. **Source** ABC 2.1, text strings: ligatures and others, from memory. */
const letters: Readonly<Record<string, string>> = {
  AA: 'Å',
  aa: 'å',
  AE: 'Æ',
  ae: 'æ',
  OE: 'Œ',
  oe: 'œ',
  ss: 'ß',
  DH: 'Ð',
  dh: 'ð',
  TH: 'Þ',
  th: 'þ',
  '/O': 'Ø',
  '/o': 'ø',
};

const namedSigns: ReadonlyMap<string, string> = new Map(
  Object.entries({
    amp: '&',
    lt: '<',
    gt: '>',
    quot: '"',
    apos: "'",
    flat: '♭',
    natural: '♮',
    sharp: '♯',
  }),
);

const entity = (whole: string, name: string): string => namedSigns.get(name) ?? htmlEntities.get(name) ?? whole;

const ofCode = (whole: string, hex: string): string => {
  const code = Number.parseInt(hex, 16);
  return code >= 0x20 && code <= 0x10ffff && !(code >= 0xd800 && code <= 0xdfff) ? String.fromCodePoint(code) : whole;
};

/** The accented letter, or null where there is none in one character. */
function accented(accent: string, letter: string): string | null {
  const mark = Object.hasOwn(accents, accent) ? accents[accent] : undefined;
  const one = mark === undefined ? '' : `${letter}${mark}`.normalize('NFC');
  return one.length === 1 ? one : null;
}

const escapes =
  /\\(?:u([0-9A-Fa-f]{4})|U([0-9A-Fa-f]{8})|(AA|aa|AE|ae|OE|oe|ss|DH|dh|TH|th|\/[Oo]|[`'^~"cuvH][A-Za-z])|([\\%&]))|&([A-Za-z]+\d?);/g;

function meant(whole: string, [hex4 = '', hex8 = '', two = '', plain = '', name = '']: readonly string[]): string {
  if (hex4 !== '' || hex8 !== '') return ofCode(whole, `${hex4}${hex8}`);
  if (two !== '') return letters[two] ?? accented(two.charAt(0), two.charAt(1)) ?? whole;
  return plain === '' ? entity(whole, name) : plain;
}

/** A text of a tune as it is meant: accents and letters after a backslash, characters by their numbers and by the names that HTML has for them. **Source** ABC 2.1, text strings, from memory. */
export const plainText = (text: string): string =>
  text.replace(escapes, (whole: string, ...groups: (string | undefined)[]) =>
    meant(
      whole,
      groups.slice(0, 5).map((group) => group ?? ''),
    ),
  );
