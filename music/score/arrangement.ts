import type { NoteId, PartId } from '../basis/ids.ts';
import type { Part, Score, SourceVoice } from './score.ts';

/** Guitar in the languages and abbreviations of part names. **Source** common practice, no source. */
const guitarWords =
  /guit|gtr|chitarra|gitar|gitaar|[ck]ytar|kitar|violão|κιθάρ|гитар|гітар|ギター|吉他|기타|\b(?:gt|git)\b/iu;
const otherWords = /bass|bajo|baixo|basso|ukulele|banjo|mandolin|lute/i;

/** Whether a name says guitar, and no other plucked instrument. */
export const saysGuitar = (name: string): boolean => guitarWords.test(name) && !otherWords.test(name);

/** Whether a part looks like a guitar: by its name, or by six or more strings; not by strings where its name says another instrument. */
export function looksLikeGuitar(part: Pick<Part, 'name' | 'tuning'>): boolean {
  if (otherWords.test(part.name)) return false;
  return saysGuitar(part.name) || (part.tuning?.length ?? 0) >= 6;
}

/** The parts that a split is made of unless a person chooses: those that sound and look like a guitar, else all that sound. A tablature part that copies another does not sound again. */
export function defaultArrangement(score: Pick<Score, 'parts' | 'notes'>): readonly PartId[] {
  const playing = new Set(score.notes.flatMap(({ voices }) => voices.map(({ part }) => part)));
  const sounding = score.parts.filter(({ id, pairedWith }) => pairedWith === null && playing.has(id));
  const guitars = sounding.filter(looksLikeGuitar);
  return (guitars.length > 0 ? guitars : sounding).map(({ id }) => id);
}

/** What is written beside the notes of some parts; what stands for the whole score stays. */
function marksOfParts(score: Score, parts: ReadonlySet<PartId>, notes: ReadonlySet<NoteId>): Partial<Score> {
  const isOfPart = ({ part }: { readonly part: PartId }): boolean => parts.has(part);
  const graces = score.graces.filter(({ main }) => notes.has(main)).map(({ id }) => id);
  const kept = new Set([...notes, ...graces]);
  return {
    lyrics: score.lyrics.filter(({ note }) => kept.has(note)),
    slurs: score.slurs.filter(({ from, to }) => kept.has(from) && kept.has(to)),
    bends: score.bends.filter(({ note }) => kept.has(note)),
    tuplets: score.tuplets.filter(isOfPart),
    clefs: score.clefs.filter(isOfPart),
    partialCapos: score.partialCapos.filter(isOfPart),
  };
}

/** The score with the notes, grace notes, rests and their marks of some parts only; bars, parts, words and chord symbols stay. A tablature part that copies another stands for that other too. */
export function arrangementOf(score: Score, parts: readonly PartId[]): Score {
  const chosen = new Set<PartId>(parts);
  for (const { id, pairedWith } of score.parts) if (pairedWith !== null && chosen.has(id)) chosen.add(pairedWith);
  const isChosen = ({ part }: SourceVoice): boolean => chosen.has(part);
  const notes = score.notes.filter(({ voices }) => voices.some(isChosen));
  const kept = new Set(notes.map(({ id }) => id));
  return {
    ...score,
    notes,
    graces: score.graces.filter(({ main }) => kept.has(main)),
    rests: score.rests.filter(({ voice }) => isChosen(voice)),
    ...marksOfParts(score, chosen, kept),
  };
}
