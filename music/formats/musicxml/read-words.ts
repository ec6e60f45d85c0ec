import type { PrintedWords, SwingMark } from '../../score/marks.ts';
import type { Jump } from '../../score/score.ts';

/** Words that send the player elsewhere, or name where such a jump lands. **Source** common practice, no source. */
const jumpWords: readonly (readonly [RegExp, Jump])[] = [
  [/\b(d\.\s?c\.|da\s?capo)|^\s*d\.?\s?c\.?(\s+al\s.*)?$/i, 'daCapo'],
  [/\b(d\.\s?s\.|dal\s?segno)|^\s*d\.?\s?s\.?(\s+al\s.*)?$/i, 'dalSegno'],
  [/^\s*(to coda|al coda$|alla coda$)/i, 'toCoda'],
  [/^\s*coda\s*$/i, 'coda'],
  [/^\s*(fine|end|ende)\s*[.!]?\s*$/i, 'fine'],
  [/^\s*(segno|𝄋)\s*$/iu, 'segno'],
  [/^\s*(?:to|al|alla)\s*𝄌/iu, 'toCoda'],
  [/^\s*𝄌\s*$/u, 'coda'],
];

/** The jumps that words name. */
export const jumpsInWords = (text: string): Jump[] =>
  jumpWords.flatMap(([pattern, jump]) => (pattern.test(text) ? [jump] : []));

/** Names of sections in the languages of scores. **Source** common practice, no source. */
const sectionWords =
  /^\W*(?:pre[\s-]?|post[\s-]?)?(?:intro|introduction|verse|vers|strophe|estrofa|couplet|chorus|refrain|estribillo|ritornello|bridge|puente|brücke|interlude|zwischenspiel|solo|outro|ending|coda|tag|vamp|theme|thema|tema|variation|variación|section|teil|parte?)(?!\p{L})[\s.:]*(?:[\divx]{1,4}|[A-H])?\W*$/iu;

/** Words of tempo. **Source** common practice, no source. */
const tempoWords =
  /\b(?:larg(?:o|hetto)|lento|grave|adagio|andant(?:e|ino)|moderato|allegr(?:o|etto)|viva(?:ce)?|prest(?:o|issimo)|rubato|rit(?:\.|ard(?:ando)?|enuto)?|rall(?:\.|entando)?|accel(?:\.|erando)?|a tempo|tempo|più mosso|meno mosso|stringendo|slow(?:ly|er)?|fast(?:er)?|langsam|schnell|mäßig|lively|ballad|freely)(?!\p{L})/iu;

const swingWords = /\b(?:swing|swung|shuffle)\b/i;
const straightWords = /\bstraight\b|\bno swing\b|\beven (?:eighths|8ths)\b/i;
const sixteenthWords = /16th|sixteenth|semiquaver/i;

/** What a reader takes for swing where only words say it: two to one of eighths. **Source** common practice, no source. */
export function swingInWords(text: string): Omit<SwingMark, 'onsetTicks'> | null {
  const isStraight = straightWords.test(text);
  if (!isStraight && !swingWords.test(text)) return null;
  const unit = sixteenthWords.test(text) ? '16th' : 'eighth';
  return { long: isStraight ? 1 : 2, short: 1, unit, isAssumed: true };
}

const romanFrets = ['i', 'ii', 'iii', 'iv', 'v', 'vi', 'vii', 'viii', 'ix', 'x', 'xi', 'xii', 'xiii', 'xiv', 'xv'];
const barreWords =
  /^[\s(“]*(?<half>½|1\/2|⅔|⅚|\d\/\d|m|half\s)?\s*(?:[cb](?=[\sivx\d.])|(?:barr?[eé]|cejilla)(?!\p{L}))[\s.:]*(?<fret>[ivx]{1,5}|\d{1,2})(?!\p{L})/iu;

/** The barre that words such as CIII, ½ C II or Barré 5 ask for. **Source** common practice, no source. */
export function barreInWords(text: string): { readonly fret: number; readonly isPartial: boolean } | null {
  const found = barreWords.exec(text)?.groups;
  const written = found?.['fret']?.toLowerCase();
  if (written === undefined) return null;
  const fret = /^\d/.test(written) ? Number(written) : romanFrets.indexOf(written) + 1;
  return fret >= 1 && fret <= 15 ? { fret, isPartial: found?.['half'] !== undefined } : null;
}

const capoWord = /\b[ck]apo|cejilla/i;

/** What words are taken for. */
export function kindOfWords(text: string, standsWithTempo: boolean): PrintedWords['kind'] {
  if (jumpsInWords(text).length > 0) return 'jump';
  if (barreInWords(text) !== null) return 'barre';
  if (swingInWords(text) !== null) return 'swing';
  if (capoWord.test(text)) return 'capo';
  if (sectionWords.test(text)) return 'section';
  return standsWithTempo || tempoWords.test(text) ? 'tempo' : 'other';
}
