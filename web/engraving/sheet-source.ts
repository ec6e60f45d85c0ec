import { excerptOf, openDocument, type HeadId, type NoteId, type Score } from '../../music/index.ts';
import type { SheetSource } from './strip.ts';

/** The note that each head of a score stands for, grace notes with themselves. */
export function headMap(score: Pick<Score, 'notes' | 'graces'>): ReadonlyMap<HeadId, NoteId> {
  const map = new Map<HeadId, NoteId>();
  for (const note of score.notes) for (const head of note.heads) map.set(head, note.id);
  for (const grace of score.graces) for (const head of grace.heads) map.set(head, grace.main);
  return map;
}

/** A sheet's music from normalised MusicXML and the score that was read from it. */
export function sheetSource(musicXml: string, score: Score): SheetSource {
  const document = openDocument(musicXml);
  const parts = score.parts.map((part) => part.id);
  return {
    score,
    xmlOfBars: (first, last) => excerptOf(document, { first: first.id, last: last.id }, { parts }),
    noteOfHead: headMap(score),
    lineOfHead: new Map(),
    staffOfLine: () => null,
  };
}
