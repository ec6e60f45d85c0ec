import { excerptOf, openDocument, type HeadId, type NoteId, type PartId, type Score } from '../../music/index.ts';
import { setUpWords } from '../lib/tuning-words.ts';
import type { SheetSource } from './strip.ts';

/** The note that each head of a score stands for; a grace note's head stands for its main note. */
export function headMap(score: Pick<Score, 'notes' | 'graces'>): ReadonlyMap<HeadId, NoteId> {
  const map = new Map<HeadId, NoteId>();
  for (const note of score.notes) for (const head of note.heads) map.set(head, note.id);
  for (const grace of score.graces) for (const head of grace.heads) map.set(head, grace.main);
  return map;
}

/** The parts that an arrangement is engraved from: those its notes come from, and the tablature that copies them. */
export function partsToEngrave(score: Pick<Score, 'notes' | 'parts'>): readonly PartId[] {
  const playing = new Set(score.notes.flatMap((note) => note.voices.map((voice) => voice.part)));
  for (const part of score.parts) if (part.pairedWith !== null && playing.has(part.pairedWith)) playing.add(part.id);
  return score.parts.map((part) => part.id).filter((id) => playing.has(id));
}

/** The names of parts where more than one of them is played from; a copy in tablature shares its part's. */
function partNames(score: Score, parts: readonly PartId[]): SheetSource['staffNames'] {
  const own = score.parts.filter(
    ({ id, pairedWith, name }) => parts.includes(id) && pairedWith === null && name !== '',
  );
  return own.length < 2 ? new Map() : new Map(own.map(({ id, name }) => [id, { full: name, short: '' }]));
}

/** An XML document from text that is known to be well formed. */
export const parsed = (xml: string): Document => new DOMParser().parseFromString(xml, 'application/xml');

/** A sheet's music from normalised MusicXML and the arrangement that was read from it. */
export function sheetSource(musicXml: string, score: Score): SheetSource {
  const document = openDocument(musicXml);
  const parts = partsToEngrave(score);
  return {
    score,
    documentOfBars: (first, last) => parsed(excerptOf(document, { first: first.id, last: last.id }, { parts })),
    noteOfHead: headMap(score),
    lineOfHead: new Map(),
    staffOfLine: () => null,
    setUp: setUpWords(score.parts),
    staffCount: score.parts.filter(({ id }) => parts.includes(id)).flatMap(({ staves }) => staves).length,
    staffNames: partNames(score, parts),
  };
}
