/** Something that is open from one rank to a later one. */
export interface RankedSpan {
  readonly fromRank: number;
  readonly toRank: number;
}

/** **Source** MusicXML 4.0, number-level. */
const highestNumber = 16;

/** Numbers from 1 for spans, so that no two that are open at once, or meet, have the same, as long as there are no more than sixteen; the given order stays. */
export function numbersOf(spans: readonly RankedSpan[]): readonly number[] {
  const endsByNumber: number[] = [];
  const numbers = new Map<RankedSpan, number>();
  for (const span of [...spans].sort((left, right) => left.fromRank - right.fromRank)) {
    const free = endsByNumber.findIndex((end) => end < span.fromRank);
    const index = free < 0 ? endsByNumber.length : free;
    endsByNumber[index] = span.toRank;
    numbers.set(span, (index % highestNumber) + 1);
  }
  return spans.map((span) => numbers.get(span) ?? 1);
}
