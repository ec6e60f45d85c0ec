import type { PrintedWords, SwingMark } from '../../score/marks.ts';
import type { Jump } from '../../score/score.ts';

/** Words that send the player elsewhere, or name where such a jump lands. **Source** common practice, no source. */
const jumpWords: readonly (readonly [RegExp, Jump])[] = [
  [/\b(?:d\.\s?c\.|da\s?capo)|^d\.?\s?c\.?(?:\s+al\s.*)?$/iu, 'daCapo'],
  [/\b(?:d\.\s?s\.|d[ae]l\s?(?:segno|𝄋))|^d\.?\s?s\.?(?:\s+al\s.*)?$/iu, 'dalSegno'],
  [/^(?:to|da)\s*(?:the\s+)?(?:coda(?!\p{L})|𝄌)|^a(?:l|lla|\s+la)\s*(?:coda|𝄌)$/iu, 'toCoda'],
  [/^(?:𝄌\s*)?coda(?:\s+(?:\d|[ivx]+))?(?:\s*𝄌)?$|^𝄌$/iu, 'coda'],
  [/^(?:fine|fin|fim|end|ende)\s*[.!]?$/iu, 'fine'],
  [/^(?:segno|𝄋|𝄋\s*segno)$/iu, 'segno'],
];

/** Signs by the codes that texts have for them. **Source** Unicode 15.1, Musical Symbols; Standard Music Font Layout 1.4, Repeats (U+E045 to U+E04A); the circled plus stands for a coda sign, common practice, no source. */
const signTexts: readonly (readonly [RegExp, string])[] = [
  [/\uE045/gu, 'D.S.'],
  [/\uE046/gu, 'D.C.'],
  [/[\uE047\uE049]/gu, '𝄋'],
  [/[\uE048\uE04A⊕]/gu, '𝄌'],
];

/** Words of a jump without the brackets and quotation marks that they may stand in. */
const plainJumpText = (text: string): string =>
  signTexts
    .reduce((plain, [sign, meaning]) => plain.replace(sign, meaning), text)
    .replace(/[()[\]{}"“”„«»]/gu, ' ')
    .replace(/\s+/gu, ' ')
    .trim();

/** The jumps that words name. */
export function jumpsInWords(text: string): Jump[] {
  const plain = plainJumpText(text);
  return jumpWords.flatMap(([pattern, jump]) => (pattern.test(plain) ? [jump] : []));
}

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
