import type { NoteId } from '../basis/ids.ts';
import type { Issue, WithIssues } from '../basis/issue.ts';
import { arrangementOf, looksLikeGuitar } from '../score/arrangement.ts';
import type { Fingerboard, Part, Score, SoundingNote, Tuning } from '../score/score.ts';
import { neckOf, placesOf } from './neck.ts';
import { proposeFingering } from './propose-fingering.ts';

/** Where a note is played: as the source says, or as Heddle proposes because it does not. */
export interface Fingering extends Fingerboard {
  readonly isProposed: boolean;
}

/** Six strings in standard tuning, string 1 first. **Source** common practice, no source. */
const standardTuning: Tuning = [64, 59, 55, 50, 45, 40];

/** The highest frets of usual guitars, and of those with the longest necks. **Source** common practice, no source. */
const usualFrets = 20;
const longNeckFrets = 24;

const isOpen = ({ sound, fingerboard }: SoundingNote): boolean => sound.kind === 'pitched' && fingerboard === null;

function fits(notes: readonly SoundingNote[], { tuning, capoFret }: Part, mostFrets: number): boolean {
  const neck = neckOf(tuning ?? standardTuning, capoFret, mostFrets);
  return notes.every((note) => note.sound.kind !== 'pitched' || placesOf(note, neck).length > 0);
}

/** Whether a part is music for a guitar: it looks like it, or it is the only one that sounds, on one staff, and lies within a guitar's range. */
function isForGuitar(part: Part, notes: readonly SoundingNote[], isOnlyOne: boolean): boolean {
  if (looksLikeGuitar(part)) return true;
  return isOnlyOne && part.tuning === null && part.staves.join() === 'notation' && fits(notes, part, usualFrets);
}

function proposedFor(score: Score, part: Part): WithIssues<ReadonlyMap<NoteId, Fingerboard>> {
  return proposeFingering(score, {
    tuning: part.tuning ?? standardTuning,
    capo: part.capoFret,
    mostFrets: fits(score.notes, part, usualFrets) ? usualFrets : longNeckFrets,
  });
}

/** Where each note of the guitars of a score is played: the places that the source gives, and a proposed one for each pitched note without. A part that does not look like a guitar gets none, unless it alone sounds and lies within a guitar's range in standard tuning. **Errors** in the issues: `note-unplayable`. */
export function fingeringsOf(score: Score): WithIssues<ReadonlyMap<NoteId, Fingering>> {
  const value = new Map<NoteId, Fingering>();
  const issues: Issue[] = [];
  for (const { id, fingerboard } of score.notes)
    if (fingerboard !== null) value.set(id, { ...fingerboard, isProposed: false });
  const sounding = new Set(score.notes.flatMap(({ voices }) => voices.map(({ part }) => part)));
  for (const part of score.parts) {
    if (part.pairedWith !== null || !sounding.has(part.id)) continue;
    const own = arrangementOf(score, [part.id]);
    if (!own.notes.some(isOpen) || !isForGuitar(part, own.notes, sounding.size === 1)) continue;
    const proposed = proposedFor(own, part);
    for (const [note, place] of proposed.value) value.set(note, { ...place, isProposed: true });
    issues.push(...proposed.issues);
  }
  return { value, issues };
}
