import {
  activeLines,
  arrangementOf,
  excerptOfBars,
  fingeringsOf,
  lineNotes,
  looseNotes,
  partId,
  readNormalised,
  splitFromSnapshot,
  ticksOfExcerpt,
  writeOut,
  type Excerpt,
  type Line,
  type LineId,
  type RangeFinding,
  type Score,
  type Split,
  type WriteOutOptions,
  type WrittenScore,
} from '../../music/index.ts';
import type { ExportWish } from '../../contract/index.ts';
import type { ExportJob } from '../workers/jobs.ts';
import { ensembles } from './ensembles.ts';

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

/** The lines that have notes in the excerpt, in the split's order. */
export function linesWithNotes({ score, split, excerpt }: SongMaterial): readonly Line[] {
  const range = ticksOfExcerpt(score, excerpt);
  if (range === null) return [];
  return activeLines(split).filter((line) => lineNotes(score, split, line.id, range).length > 0);
}

/** How a wish is written out: all lines that have notes, or the named one. */
const optionsOf = (score: Score, wish: ExportWish, lines: readonly LineId[]): WriteOutOptions => ({
  lines,
  lengths: wish.lengths,
  ...(wish.tablature === 'with' ? { tablature: true, places: fingeringsOf(score).value } : {}),
  ...(wish.what === 'ensemble' && wish.ensemble !== undefined ? { ensemble: ensembles[wish.ensemble] } : {}),
});

function looseSentence({ score, split, excerpt }: SongMaterial): readonly string[] {
  const range = ticksOfExcerpt(score, excerpt);
  const loose = looseNotes(score, split).filter(
    ({ onsetTicks }) => range !== null && onsetTicks >= range.startTicks && onsetTicks < range.endTicks,
  );
  if (loose.length === 0) return [];
  return [
    loose.length === 1
      ? 'One note is on no line and was left out.'
      : `${loose.length} notes are on no line and were left out.`,
  ];
}

/** The octaves that bring lines into the range of their players. */
const octavesOf = (ranges: readonly RangeFinding[]): ReadonlyMap<LineId, number> =>
  new Map(
    ranges.flatMap(({ line, suggestedOctaves }) =>
      suggestedOctaves === null ? [] : [[line, suggestedOctaves] as const],
    ),
  );

const nameOfLine = ({ split }: SongMaterial, id: LineId): string =>
  split.lines.find((line) => line.id === id)?.name ?? id;

function movedSentences(material: SongMaterial, octaves: ReadonlyMap<LineId, number>): readonly string[] {
  return [...octaves].map(([line, count]) => {
    const far = Math.abs(count) === 1 ? 'an octave' : `${Math.abs(count)} octaves`;
    return `${nameOfLine(material, line)} was moved ${far} ${count > 0 ? 'up' : 'down'}, into the range of its player.`;
  });
}

const rangeSentences = (material: SongMaterial, ranges: readonly RangeFinding[]): readonly string[] =>
  ranges.map(({ line, player, notes }) => {
    const count = notes.length === 1 ? 'One note' : `${notes.length} notes`;
    return `${count} of ${nameOfLine(material, line)} cannot be played by its player (${player}).`;
  });

/** The lines of a wish, written out. */
export function writtenLines(material: SongMaterial, wish: ExportWish): WrittenLines {
  const { score, split, excerpt } = material;
  const lines = wish.line === undefined ? linesWithNotes(material).map(({ id }) => id) : [wish.line];
  const options = optionsOf(score, wish, lines);
  const first = writeOut(score, split, excerpt, options);
  const octaves = octavesOf(first.ranges);
  const { value, issues, ranges } =
    octaves.size === 0 ? first : writeOut(score, split, excerpt, { ...options, octaves });
  const moved = [...movedSentences(material, octaves), ...rangeSentences(material, ranges)];
  const loose = wish.line === undefined ? looseSentence(material) : [];
  const line = activeLines(split).find(({ id }) => id === wish.line);
  const title = line === undefined ? material.title : `${material.title}: ${line.name}`;
  return {
    written: { ...value, title, composer: material.composer },
    notes: [...loose, ...moved, ...new Set(issues.map(({ detail }) => detail))],
  };
}
