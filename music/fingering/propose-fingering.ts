import type { NoteId } from '../basis/ids.ts';
import type { Issue, WithIssues } from '../basis/issue.ts';
import { beatOf } from '../score/reading-order.ts';
import type { Fingerboard, Score, SoundingNote, Tuning } from '../score/score.ts';
import { assignmentsOf } from './assignments.ts';
import { widestSpan } from './hand.ts';
import { neckOf, placesOf, type Neck } from './neck.ts';
import { cheapestPath, type FingeringMoment, type Step } from './path.ts';

/** The instrument for which a fingering is proposed. */
export interface FingeringOptions {
  /** String 1 first, without capo. **Units** MIDI note numbers. */
  readonly tuning: Tuning;
  /** The capo's fret, 0 for none. */
  readonly capo: number;
  /** The highest fret of the neck, counted from the nut. */
  readonly mostFrets: number;
}

function momentsOf(notes: readonly SoundingNote[], neck: Neck): FingeringMoment[] {
  const byOnset = new Map<number, SoundingNote[]>();
  for (const note of notes) {
    if (note.sound.kind !== 'pitched') continue;
    const group = byOnset.get(note.onsetTicks);
    if (group === undefined) byOnset.set(note.onsetTicks, [note]);
    else group.push(note);
  }
  return [...byOnset]
    .sort(([a], [b]) => a - b)
    .map(([onsetTicks, struck]) => {
      const options = struck.map((note) => placesOf(note, neck));
      return { onsetTicks, notes: struck, assignments: assignmentsOf(options, neck.open.length) };
    });
}

const counted = (count: number, one: string, more: string): string => (count === 1 ? `One ${one}` : `${count} ${more}`);

function sentences({ trouble }: Step): string[] {
  const { missing, isOutOfReach, lacksFingers, cutStrings } = trouble;
  return [
    ...(missing > 0 ? [`${counted(missing, 'note finds', 'notes find')} no string here and got none.`] : []),
    ...(isOutOfReach ? [`The hand would have to span more than ${widestSpan + 1} frets here.`] : []),
    ...(lacksFingers ? ['The left hand would need more than four fingers here.'] : []),
    ...(cutStrings.length > 0
      ? [`String ${cutStrings.join(', ')} must be struck here although a note should still sound on it.`]
      : []),
  ];
}

function issuesOf(score: Score, moment: FingeringMoment, step: Step): Issue[] {
  const [note] = moment.notes;
  if (note === undefined) return [];
  const place = beatOf(score, moment.onsetTicks);
  if (place === null) return [];
  const part = score.parts.find(({ id }) => id === note.voices[0]?.part)?.name ?? '';
  return sentences(step).map((detail) => ({
    code: 'note-unplayable',
    where: { kind: 'music', part, ...place },
    severity: 'warning',
    detail,
  }));
}

/** A playable string and fret for each pitched note that has none: of the ways that a bounded search finds, the one with the least movement of the hand and the easiest grips, sounding notes keeping their strings. Places that the source gives stay and are not in the result. What cannot be played is an issue at its bar and beat, and gets the best part of an answer. The same score always gives the same answer. **Errors** in the issues: `note-unplayable`. **Source** common practice, no source. */
export function proposeFingering(
  score: Score,
  { tuning, capo, mostFrets }: FingeringOptions,
): WithIssues<ReadonlyMap<NoteId, Fingerboard>> {
  const neck = neckOf(tuning, capo, mostFrets);
  const moments = momentsOf(score.notes, neck);
  const value = new Map<NoteId, Fingerboard>();
  const issues: Issue[] = [];
  cheapestPath(moments, neck.open.length).forEach((step, index) => {
    const moment = moments[index];
    if (moment === undefined) return;
    issues.push(...issuesOf(score, moment, step));
    moment.notes.forEach((note, at) => {
      const place = step.places[at];
      if (place != null && note.fingerboard === null) value.set(note.id, place);
    });
  });
  return { value, issues };
}
