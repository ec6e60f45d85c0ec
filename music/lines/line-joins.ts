import type { NoteId } from '../basis/ids.ts';
import type { GraceNote, Score, SoundingNote } from '../score/score.ts';
import type { WrittenJoin } from '../score/written.ts';
import { momentsOf, type Moment } from './moments.ts';
import { numbersOf } from './span-numbers.ts';

type JoinKind = WrittenJoin['kind'];

/** Two notes of a line that a sign joins; `from` is null where the first of them is not of the line. */
interface Join {
  readonly kind: JoinKind;
  readonly from: NoteId | null;
  readonly to: NoteId;
}

/** The signs that join the notes of one line, and the slurs of which only one end is on it. */
export interface LineJoins {
  readonly joinsOf: (id: NoteId) => readonly WrittenJoin[];
  readonly brokenAt: readonly NoteId[];
}

const reachedBy: readonly Exclude<JoinKind, 'slur'>[] = ['hammerOn', 'pullOff', 'slide'];

const stringOf = ({ fingerboard }: Pick<GraceNote, 'fingerboard'>): number | null => fingerboard?.string ?? null;
const heightOf = ({ sound }: Pick<GraceNote, 'sound'>): number => (sound.kind === 'pitched' ? sound.soundingMidi : 0);

type Candidate = Pick<GraceNote, 'id' | 'fingerboard' | 'sound'>;

/** Where a slide or slur of the left hand comes from: the last note before on the same string, else the nearest in pitch of those just before. */
function originOf(note: SoundingNote, graces: readonly Candidate[], before: Moment | undefined): NoteId | null {
  const candidates: readonly Candidate[] = graces.length > 0 ? graces.slice(-1) : (before?.notes ?? []);
  const string = stringOf(note);
  const onString = string === null ? undefined : candidates.find((candidate) => stringOf(candidate) === string);
  const distance = (candidate: Candidate): number => Math.abs(heightOf(candidate) - heightOf(note));
  const nearest = [...candidates].sort((left, right) => distance(left) - distance(right))[0];
  return (onString ?? nearest)?.id ?? null;
}

function reachedJoins(moments: readonly Moment[], gracesOf: (id: NoteId) => readonly GraceNote[]): readonly Join[] {
  return moments.flatMap((moment, index) =>
    moment.notes.flatMap((note) =>
      reachedBy
        .filter((kind) => note.techniques.includes(kind))
        .map((kind): Join => ({ kind, from: originOf(note, gracesOf(note.id), moments[index - 1]), to: note.id })),
    ),
  );
}

/** The order of notes and grace notes in time: grace notes stand before their note. */
function ranksOf(
  moments: readonly Moment[],
  gracesOf: (id: NoteId) => readonly GraceNote[],
): ReadonlyMap<NoteId, number> {
  const ranks = new Map<NoteId, number>();
  let rank = 0;
  for (const { notes } of moments) {
    for (const grace of notes.flatMap(({ id }) => gracesOf(id))) ranks.set(grace.id, (rank += 1));
    rank += 1;
    for (const { id } of notes) ranks.set(id, rank);
  }
  return ranks;
}

function edgesByNote(joins: readonly Join[], ranks: ReadonlyMap<NoteId, number>): ReadonlyMap<NoteId, WrittenJoin[]> {
  const edges = new Map<NoteId, WrittenJoin[]>();
  const add = (id: NoteId, join: WrittenJoin): void => {
    const known = edges.get(id);
    if (known === undefined) edges.set(id, [join]);
    else known.push(join);
  };
  const kinds: readonly JoinKind[] = ['slur', ...reachedBy];
  for (const kind of kinds) {
    const ofKind = joins.filter((join) => join.kind === kind);
    const rankOf = (id: NoteId | null): number => (id === null ? 0 : (ranks.get(id) ?? 0));
    const spans = ofKind.map(({ from, to }) => ({ fromRank: rankOf(from ?? to), toRank: rankOf(to) }));
    const numbers = numbersOf(spans);
    ofKind.forEach(({ from, to }, index) => {
      const number = numbers[index] ?? 1;
      add(to, { kind, edge: 'stop', number });
      if (from !== null) add(from, { kind, edge: 'start', number });
    });
  }
  return edges;
}

const none: readonly WrittenJoin[] = [];

/** The slurs, hammer-ons, pull-offs and slides between the notes of one line, given in order of time. */
export function lineJoins(
  score: Pick<Score, 'slurs'>,
  notes: readonly SoundingNote[],
  gracesOf: (id: NoteId) => readonly GraceNote[],
): LineJoins {
  const moments = momentsOf(notes);
  const reached = reachedJoins(moments, gracesOf);
  if (score.slurs.length === 0 && reached.length === 0) return { joinsOf: () => none, brokenAt: [] };
  const ranks = ranksOf(moments, gracesOf);
  const whole = score.slurs.filter(({ from, to }) => (ranks.get(from) ?? Infinity) < (ranks.get(to) ?? -Infinity));
  const brokenAt = score.slurs.filter(({ from, to }) => ranks.has(from) && !ranks.has(to)).map(({ from }) => from);
  const joins = [...whole.map(({ from, to }): Join => ({ kind: 'slur', from, to })), ...reached];
  const edges = edgesByNote(joins, ranks);
  return { joinsOf: (id) => edges.get(id) ?? none, brokenAt };
}
