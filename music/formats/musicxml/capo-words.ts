import type { RawPart } from './raw-part.ts';

/** A capo in the languages of scores, with its fret after it. **Source** common practice, no source. */
const capoWithFret =
  /(?<!\bda\s)\b(?:[ck]apo(?:[dt]ast\p{L}*)?|cejilla)(?!\p{L}).{0,16}?(?<!\p{L})(\d{1,2}(?![\d/])|[ivx]+(?!\p{L}))/iu;

/** Words that name a capo on some of the strings. **Source** common practice, no source. */
const someStrings =
  /partial|short[\s-]?cut|split|half|parcial|partiel|parziale|teil|[½⅔⅚]|\d\/\d|string|saite|cuerda|corde/i;

const romanFrets: readonly string[] = ['', 'i', 'ii', 'iii', 'iv', 'v', 'vi', 'vii', 'viii', 'ix', 'x', 'xi', 'xii'];

function fretOf(text: string): number | null {
  const fret = /^\d+$/.test(text) ? Number(text) : romanFrets.indexOf(text.toLowerCase());
  return fret >= 0 && fret <= 12 ? fret : null;
}

/** Takes the capo that words name into the part; one on some strings only is noted and moves nothing. */
export function readCapoWords(text: string, part: RawPart): void {
  const named = capoWithFret.exec(text)?.[1];
  const fret = named === undefined ? null : fretOf(named);
  if (fret === null) return;
  if (someStrings.test(text)) part.partialCapo ??= text.slice(0, 80);
  else part.capoFret ??= fret;
}
