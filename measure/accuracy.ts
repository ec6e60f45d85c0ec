import { bestMatching } from './best-matching.ts';
import { agreementOf, type Agreement } from './links.ts';
import { truthOf, type Label, type Piece } from './piece.ts';

/** How well one piece was split. */
export interface Accuracy extends Agreement {
  readonly id: string;
  /** The share of notes on the right line, labels matched with voices once so that it is greatest. */
  readonly right: number;
  /** The link F1 of what lies between the outer voices, by itself; null where nothing does. */
  readonly innerF1: number | null;
  readonly trueLines: number;
  readonly foundLines: number;
}

/** For each note whether its label is the one that stands for its voice. */
export function rightNotes(piece: Piece, labels: readonly Label[]): readonly boolean[] {
  const labelOf = bestMatching(truthOf(piece), labels);
  return piece.notes.map(({ voice }, index) => labels[index] != null && labelOf.get(voice) === labels[index]);
}

/** All voices but the highest and the lowest by their mean pitch. */
function innerVoices({ notes }: Piece): ReadonlySet<string> {
  const sums = new Map<string, { sum: number; count: number }>();
  for (const { voice, midi } of notes) {
    const { sum, count } = sums.get(voice) ?? { sum: 0, count: 0 };
    sums.set(voice, { sum: sum + midi, count: count + 1 });
  }
  const byPitch = [...sums].sort(([, a], [, b]) => b.sum / b.count - a.sum / a.count).map(([voice]) => voice);
  return new Set(byPitch.slice(1, -1));
}

/** Truth and answer with the outer voices, and the labels that stand for them, taken out of both. */
function innerF1Of(piece: Piece, labels: readonly Label[]): number | null {
  const inner = innerVoices(piece);
  if (inner.size === 0) return null;
  const labelOf = bestMatching(truthOf(piece), labels);
  const kept = new Set([...inner].map((voice) => labelOf.get(voice)));
  const trueInner = truthOf(piece).map((voice) => (inner.has(voice) ? voice : null));
  const foundInner = labels.map((label) => (label !== null && kept.has(label) ? label : null));
  return agreementOf(piece.notes, trueInner, foundInner).f1;
}

/** **Shape** `labels`: one for each note of the piece, in its order. */
export function accuracyOf(piece: Piece, labels: readonly Label[]): Accuracy {
  const right = rightNotes(piece, labels).filter(Boolean).length;
  return {
    id: piece.id,
    ...agreementOf(piece.notes, truthOf(piece), labels),
    right: piece.notes.length === 0 ? 1 : right / piece.notes.length,
    innerF1: innerF1Of(piece, labels),
    trueLines: new Set(truthOf(piece)).size,
    foundLines: new Set(labels.filter((label) => label !== null)).size,
  };
}

/** The mean; NaN of nothing. */
export const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
