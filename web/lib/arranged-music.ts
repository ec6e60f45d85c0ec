import {
  arrangementOf,
  defaultArrangement,
  noteId,
  partId,
  readNormalised,
  type Line,
  type LineId,
  type Score,
  type Split,
} from '../../music/index.ts';

/** An arrangement as screens need it: the document, what it says, and which notes are on which lines. */
export interface ArrangedMusic {
  readonly musicXml: string;
  readonly score: Score;
  readonly split: Split;
}

/** The notes of the chosen parts of a normalised document; of those that look like the arrangement where none were chosen. */
export function arrangementIn(musicXml: string, parts: readonly string[] | null): Score {
  const score = readNormalised(musicXml).value;
  return arrangementOf(score, parts === null || parts.length === 0 ? defaultArrangement(score) : parts.map(partId));
}

/** A split that only tells lines and their notes, as releases keep it. */
export const frozenSplit = (
  lines: readonly Line[],
  marks: readonly (readonly [string, readonly LineId[]])[],
): Split => ({
  revision: 0,
  lines,
  marks: new Map(
    marks.map(([note, on]) => [noteId(note), { lines: on, from: 'person', confidence: null, revision: 0 }]),
  ),
});
