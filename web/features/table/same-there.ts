import {
  likeBars,
  linesOfNote,
  type BarId,
  type LikeBar,
  type LineId,
  type NoteChange,
  type NoteId,
  type Operation,
  type Score,
  type Split,
} from '../../../music/index.ts';

/** What was done in one bar, as it would be done in the bars like it. */
export interface SameThere {
  readonly operation: Operation & { readonly kind: 'markNotes' };
  /** The bars where a note would come to another line, in written order. */
  readonly bars: readonly LikeBar[];
  /** The notes that would come to other lines; those that are there already are marked too. */
  readonly follows: ReadonlySet<NoteId>;
  /** How many notes of these bars are left as they are because somebody put them on another line. */
  readonly leftCount: number;
}

/** From more bars than this nothing is copied: the deed was not about a bar. */
const mostBars = 8;

const isSameSet = (a: readonly LineId[], b: readonly LineId[]): boolean =>
  a.length === b.length && a.every((line) => b.includes(line));

/** The notes of a bar that people have put on lines. */
export const peoplesNotesOf = (score: Pick<Score, 'notes'>, split: Pick<Split, 'marks'>, bar: BarId): NoteId[] =>
  score.notes
    .filter((note) => note.bar === bar && split.marks.get(note.id)?.from === 'person')
    .filter((note) => linesOfNote(split, note.id).length > 0)
    .map(({ id }) => id);

/** The notes of one like bar that would be marked; those that are on other lines now; how many people's marks stand against it. */
interface Copied {
  readonly changes: readonly NoteChange[];
  readonly moved: readonly NoteId[];
  readonly leftCount: number;
}

function copyTo(split: Split, sources: readonly NoteId[], taken: ReadonlySet<NoteId>, like: LikeBar): Copied {
  const changes: NoteChange[] = [];
  const moved: NoteId[] = [];
  let leftCount = 0;
  for (const source of sources) {
    const note = like.counterparts.get(source);
    if (note === undefined || taken.has(note)) continue;
    const [lines, present] = [linesOfNote(split, source), split.marks.get(note)];
    const isThere = isSameSet(linesOfNote(split, note), lines);
    if (present?.from === 'person') {
      if (!isThere) leftCount += 1;
      continue;
    }
    if (!isThere) moved.push(note);
    changes.push({
      note,
      before: { lines: [...(present?.lines ?? [])], from: 'proposal', confidence: present?.confidence ?? null },
      after: { lines: [...lines].sort(), from: 'person', confidence: null },
    });
  }
  return { changes, moved, leftCount };
}

const likenesses: readonly LikeBar['likeness'][] = ['exact', 'transposed', 'varied'];

function likesOf(score: Score, byBar: ReadonlyMap<BarId, readonly NoteId[]>, takesVaried: boolean) {
  const likes = [...byBar]
    .flatMap(([bar, notes]) => likeBars(score, bar).map((like) => ({ like, notes })))
    .filter(({ like }) => takesVaried || like.likeness !== 'varied');
  return likes.sort((a, b) => likenesses.indexOf(a.like.likeness) - likenesses.indexOf(b.like.likeness));
}

/**
 * The lines of some notes given to the notes that correspond to them in like bars, as one person's mark; notes that people have marked stay.
 * Bars that are only nearly alike may be left out. Null where no bar is like theirs or nothing would change there.
 */
export function sameThere(
  score: Score,
  split: Split,
  sources: readonly NoteId[],
  takesVaried = true,
): SameThere | null {
  const wanted = new Set(sources.filter((note) => linesOfNote(split, note).length > 0));
  const byBar = new Map<BarId, NoteId[]>();
  for (const { id, bar } of score.notes) if (wanted.has(id)) byBar.set(bar, [...(byBar.get(bar) ?? []), id]);
  if (byBar.size > mostBars) return null;
  const taken = new Set(wanted);
  const bars = new Map<BarId, LikeBar>();
  const found = { changes: [] as NoteChange[], moved: [] as NoteId[], leftCount: 0 };
  for (const { like, notes } of likesOf(score, byBar, takesVaried)) {
    const { changes, moved, leftCount } = copyTo(split, notes, taken, like);
    if (moved.length === 0) continue;
    for (const { note } of changes) taken.add(note);
    bars.set(like.bar, bars.get(like.bar) ?? like);
    found.changes.push(...changes);
    found.moved.push(...moved);
    found.leftCount += leftCount;
  }
  if (bars.size === 0) return null;
  return {
    operation: { kind: 'markNotes', changes: found.changes },
    bars: score.bars.flatMap(({ id }) => bars.get(id) ?? []),
    follows: new Set(found.moved),
    leftCount: found.leftCount,
  };
}
