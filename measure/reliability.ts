/** What was said of one note, and whether it was so. */
export interface Claim {
  /** 0 to 1. */
  readonly confidence: number;
  readonly isRight: boolean;
}

/** The claims of a tenth of the scale. */
export interface Bin {
  readonly count: number;
  /** NaN where the bin is empty, as is `rightShare`. */
  readonly meanConfidence: number;
  readonly rightShare: number;
}

/** How far confidence may be believed. */
export interface Reliability {
  /** Ten, from 0 up. */
  readonly bins: readonly Bin[];
  /** The mean distance of confidence from what came true, bins weighed by their claims (expected calibration error). */
  readonly calibrationError: number;
  /** The chance that a right note is surer than a wrong one, ties counted half (area under the ROC curve); null where all are right or all wrong. */
  readonly auroc: number | null;
}

const binCount = 10;

function binOf(claims: readonly Claim[]): Bin {
  const count = claims.length;
  const sum = claims.reduce((total, { confidence }) => total + confidence, 0);
  return { count, meanConfidence: sum / count, rightShare: claims.filter(({ isRight }) => isRight).length / count };
}

/** By the sum of the ranks of the right claims (Mann and Whitney 1947). */
function aurocOf(claims: readonly Claim[]): number | null {
  const right = claims.filter(({ isRight }) => isRight).length;
  const wrong = claims.length - right;
  if (right === 0 || wrong === 0) return null;
  const sorted = [...claims].sort((a, b) => a.confidence - b.confidence);
  let rankSum = 0;
  for (let from = 0; from < sorted.length;) {
    let to = from;
    while (sorted[to]?.confidence === sorted[from]?.confidence) to++;
    const meanRank = (from + 1 + to) / 2;
    rankSum += meanRank * sorted.slice(from, to).filter(({ isRight }) => isRight).length;
    from = to;
  }
  return (rankSum - (right * (right + 1)) / 2) / (right * wrong);
}

/** Claims sorted into ten bins of equal width; 1 falls into the last. */
export function reliabilityOf(claims: readonly Claim[]): Reliability {
  const sorted: Claim[][] = Array.from({ length: binCount }, () => []);
  for (const claim of claims) sorted[Math.min(binCount - 1, Math.floor(claim.confidence * binCount))]?.push(claim);
  const bins = sorted.map(binOf);
  const apart = bins
    .filter(({ count }) => count > 0)
    .reduce((sum, bin) => sum + bin.count * Math.abs(bin.meanConfidence - bin.rightShare), 0);
  return { bins, calibrationError: claims.length === 0 ? 0 : apart / claims.length, auroc: aurocOf(claims) };
}
