import {
  activeLines,
  arrangementOf,
  excerptOfBars,
  fingeringsOf,
  partId,
  readNormalised,
  splitFromSnapshot,
  ticksOfExcerpt,
  writeForPlayers,
  type Excerpt,
  type Score,
  type Split,
  type WriteOutOptions,
  type WrittenScore,
} from '../../music/index.ts';
import { exportEnsembles, type ExportWish } from '../../contract/index.ts';
import type { ExportJob } from '../workers/jobs.ts';

/** A song as files are made of it. */
export interface SongMaterial {
  readonly title: string;
  readonly composer: string;
  readonly normalisedXml: string;
  readonly score: Score;
  readonly split: Split;
  readonly excerpt: Excerpt;
  /** Whether the excerpt is all of it. */
  readonly isWhole: boolean;
}

/** Lines written out, with sentences about what was lost on the way. */
export interface WrittenLines {
  readonly written: WrittenScore;
  readonly notes: readonly string[];
}

/** What a job is about; null where the score has no such bars. */
export function materialOf({ normalisedXml, parts, split, title, composer, wish }: ExportJob): SongMaterial | null {
  const score = arrangementOf(readNormalised(normalisedXml).value, parts.map(partId));
  const [first, last] = [score.bars[0], score.bars.at(-1)];
  const whole = first === undefined || last === undefined ? null : excerptOfBars(score, first.id, last.id);
  const { from, to } = wish;
  const isWhole = from === undefined || to === undefined;
  const excerpt = isWhole ? whole : { from, to };
  if (excerpt === null || ticksOfExcerpt(score, excerpt) === null) return null;
  return { title, composer, normalisedXml, score, split: splitFromSnapshot(split), excerpt, isWhole };
}

/** Whether strings are shown: where that is wished, and guitars play. */
const showsStrings = ({ tablature, what, ensemble }: ExportWish): boolean =>
  tablature === 'with' && (what !== 'ensemble' || ensemble === 'guitar');

/** How a wish is written out: all lines that have notes, or the named one. */
const optionsOf = (score: Score, wish: ExportWish): WriteOutOptions => ({
  ...(wish.line === undefined ? {} : { lines: [wish.line] }),
  lengths: wish.lengths,
  ...(showsStrings(wish) ? { tablature: true, places: fingeringsOf(score).value } : {}),
  ...(wish.what === 'ensemble' && wish.ensemble !== undefined ? { ensemble: exportEnsembles[wish.ensemble] } : {}),
});

/** The lines of a wish, written out. */
export function writtenLines(material: SongMaterial, wish: ExportWish): WrittenLines {
  const { score, split, excerpt } = material;
  const { value, losses } = writeForPlayers(score, split, excerpt, optionsOf(score, wish));
  const line = activeLines(split).find(({ id }) => id === wish.line);
  const title = line === undefined ? material.title : `${material.title}: ${line.name}`;
  return { written: { ...value, title, composer: material.composer }, notes: losses };
}
