import type { LostMark, NoteId, RefusedSubmission, Split } from '../../../music/index.ts';
import type { ErrorCode, ServerMessage } from '../../../contract/index.ts';

/** Somebody else at the same table. */
export type RoomPeer = (ServerMessage & { readonly type: 'peers' })['peers'][number];

/** What a colleague did a moment ago. */
export interface Arrival {
  readonly revision: number;
  readonly personId: string;
  readonly name: string;
  readonly notes: readonly NoteId[];
}

/** How far one's own work has come. */
export type RoomSaveState =
  { readonly kind: 'saved' } | { readonly kind: 'saving' } | { readonly kind: 'waiting'; readonly count: number };

/** A table as it stands now; a new object whenever anything changed. */
export interface RoomState {
  readonly split: Split;
  /** Whether the server's state has been seen at all. */
  readonly isLoaded: boolean;
  readonly peers: readonly RoomPeer[];
  readonly saveState: RoomSaveState;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly arrivals: readonly Arrival[];
  readonly tray: readonly RefusedSubmission[];
  readonly lostMarks: readonly LostMark[];
  /** Why the server will not have us at this table, if so. */
  readonly refusal: { readonly code: ErrorCode; readonly detail: string } | null;
}
