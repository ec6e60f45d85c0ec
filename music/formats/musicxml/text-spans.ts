import type { Technique } from '../../score/score.ts';
import type { RawHead, RawMoment, RawPart, RawTextSpan } from './raw-part.ts';

/** Words over a stretch of notes that say how they are played. **Source** common practice among guitarists, no source. */
const techniqueWords: readonly (readonly [RegExp, Technique])[] = [
  [/^\W*(?:let ring|l\.\s?r\.|l\.\s?v\.|laissez vibrer|lasciar vibrare|klingen lassen|dejar sonar)/i, 'letRing'],
  [/^\W*(?:p\.\s?m\.|palm[\s-]?mut(?:e|ed|ing)|pizz\.?|étouffé)/i, 'palmMute'],
  [/^\W*(?:w\/\s*vibrato|vibrato|vib\.)/i, 'vibrato'],
];

/** The technique that words ask for, or null. */
export const techniqueInWords = (text: string): Technique | null =>
  techniqueWords.find(([pattern]) => pattern.test(text))?.[1] ?? null;

const isBefore = (a: RawMoment, b: RawMoment): boolean =>
  a.barIndex < b.barIndex || (a.barIndex === b.barIndex && a.offsetTicks < b.offsetTicks);

const isAt = (a: RawMoment, b: RawMoment): boolean => a.barIndex === b.barIndex && a.offsetTicks === b.offsetTicks;

const covers = (span: RawTextSpan, head: RawHead): boolean => {
  if (span.staff !== head.staff) return false;
  if (span.end === null) return isAt(span, head);
  return !isBefore(head, span) && isBefore(head, span.end);
};

/** Gives the notes under words such as let ring and P.M. their technique, over the dashes that follow the words, else at their moment. */
export function applyTextSpans(part: RawPart): void {
  for (const span of part.textSpans) {
    const technique = techniqueInWords(span.text);
    if (technique === null) continue;
    part.heads.forEach((head, index) => {
      if (covers(span, head) && !head.techniques.includes(technique))
        part.heads[index] = { ...head, techniques: [...head.techniques, technique] };
    });
  }
}
