import type { Label } from './piece.ts';

/** The part of a note that links look at. */
interface Placed {
  readonly onsetTicks: number;
}

/** Pairs of neighbours: where a voice strikes several notes at once, each is linked to each of its next moment. */
type Links = ReadonlySet<number>;

/** How far the links of an answer agree with the true ones. */
export interface Agreement {
  /** The share of the answer's links that are true; 1 where it has none. */
  readonly precision: number;
  /** The share of the true links that the answer has; 1 where there are none. */
  readonly recall: number;
  /** The harmonic mean of both, 0 where both are 0. */
  readonly f1: number;
}

function momentsOf(notes: readonly Placed[], labels: readonly Label[]): ReadonlyMap<string, readonly number[][]> {
  const moments = new Map<string, number[][]>();
  const inTime = [...notes.entries()].sort(([a, { onsetTicks }], [b, other]) => onsetTicks - other.onsetTicks || a - b);
  for (const [index] of inTime) {
    const label = labels[index] ?? null;
    if (label === null) continue;
    const ofLabel = moments.get(label) ?? [];
    const last = ofLabel.at(-1);
    if (last !== undefined && notes[last[0] as number]?.onsetTicks === notes[index]?.onsetTicks) last.push(index);
    else ofLabel.push([index]);
    moments.set(label, ofLabel);
  }
  return moments;
}

function linksOf(notes: readonly Placed[], labels: readonly Label[]): Links {
  const links = new Set<number>();
  for (const moments of momentsOf(notes, labels).values())
    for (const [place, moment] of moments.entries())
      for (const from of moments[place - 1] ?? []) for (const to of moment) links.add(from * notes.length + to);
  return links;
}

/**
 * How far an answer links the notes that follow each other in a voice, whatever rests lie between. Notes without a label have no links.
 * **Source** Karystinaios, Foscarin and Widmer, Musical voice separation as link prediction, IJCAI 2023, section on evaluation.
 */
export function agreementOf(notes: readonly Placed[], truth: readonly Label[], labels: readonly Label[]): Agreement {
  const trueLinks = linksOf(notes, truth);
  const found = linksOf(notes, labels);
  const shared = [...found].filter((link) => trueLinks.has(link)).length;
  const precision = found.size === 0 ? 1 : shared / found.size;
  const recall = trueLinks.size === 0 ? 1 : shared / trueLinks.size;
  const f1 = precision + recall === 0 ? 0 : (2 * precision * recall) / (precision + recall);
  return { precision, recall, f1 };
}
