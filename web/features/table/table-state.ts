import type { Excerpt, LineFinding, LineId, NoteId, Score } from '../../../music/index.ts';
import type { RoomState } from '../../lib/room/room-state.ts';
import type { SplitCounts } from './counts.ts';
import type { SameThere } from './same-there.ts';
import type { Suggestion } from './suggestion.ts';

/** The ways of looking at the same bars. */
export type TableView = 'stacked' | 'threaded' | 'writtenOut' | 'ribbons';

/** The splitting table as its screens see it; a new object whenever something changed. */
export interface TableState {
  readonly room: RoomState;
  readonly score: Score;
  readonly counts: SplitCounts;
  /** What the checks find worth a look, notes on no line left out: those are counted. */
  readonly findings: readonly LineFinding[];
  /** The finding that one has walked to. */
  readonly finding: LineFinding | null;
  readonly view: TableView;
  readonly excerpt: Excerpt | null;
  /** The line that picked notes go to; null while one only looks. */
  readonly chosen: LineId | null;
  readonly lifted: ReadonlySet<LineId>;
  readonly selected: ReadonlySet<NoteId>;
  readonly cursor: NoteId | null;
  readonly suggestion: Suggestion | null;
  /** What could be done in other bars as it was in one; worked out a moment after each mark or choice. */
  readonly same: SameThere | null;
  readonly isAsking: boolean;
  /** One sentence when something could not be done. */
  readonly problem: string | null;
}
