import { headId, noteId, type HeadId, type NoteId } from '../../basis/ids.ts';

/** The id of the k-th head of a written-out score that stands for a source note; heads on a tablature staff are counted for themselves. */
export const writtenHeadId = (source: NoteId, occurrence: number, staff: 'notes' | 'strings' = 'notes'): HeadId =>
  headId(`w.${source}.${occurrence}${staff === 'strings' ? 't' : ''}`);

/** The source note of a head of a written-out score; null for an id that no written-out score gave. */
export function sourceOfWrittenHead(id: string): NoteId | null {
  const source = /^w\.(.+)\.\d+t?$/.exec(id)?.[1];
  return source === undefined ? null : noteId(source);
}
