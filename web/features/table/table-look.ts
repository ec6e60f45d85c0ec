import type { PeerMark, SheetLook } from '../../engraving/look.ts';
import { activeLines, type LineId, type NoteId } from '../../../music/index.ts';
import type { Arrival, RoomPeer } from '../../lib/room/room-state.ts';
import type { EyeTone } from '../../ui/eye-tone.ts';
import type { TableState } from './table-state.ts';

const peerColours = [1, 2, 3] as const;

/** Which of the three peer colours a colleague has, the same for as long as the page is open. */
export class PeerColours {
  readonly #people: string[] = [];

  of(personId: string): 1 | 2 | 3 {
    if (!this.#people.includes(personId)) this.#people.push(personId);
    return peerColours[this.#people.indexOf(personId) % peerColours.length] ?? 1;
  }
}

/** What the sheet shows that is no part of the table's state. */
interface Besides {
  readonly colours: PeerColours;
  /** Notes of the shown bars that lie outside the excerpt. */
  readonly outside: ReadonlySet<NoteId>;
  /** How each line is heard. */
  readonly tones: ReadonlyMap<LineId, EyeTone>;
}

/** How the sheet is to look for the table's present state. */
export function lookOfTable(state: TableState, { colours, outside, tones }: Besides): SheetLook {
  const { room, view, lifted, selected, suggestion } = state;
  return {
    split: room.split,
    view: view === 'threaded' ? 'threaded' : 'stacked',
    lifted,
    tones,
    selected,
    outside,
    wouldFollow: suggestion?.isFolded === false ? suggestion.follows : new Set(),
    tellsState: true,
    peers: [
      ...room.peers.flatMap((peer) => placeMarks(peer, colours)),
      ...room.arrivals.flatMap((arrival) => freshMarks(state, arrival, colours)),
    ],
  };
}

const placeMarks = (peer: RoomPeer, colours: PeerColours): readonly PeerMark[] =>
  peer.presence.selection.map((note, index) => ({
    note: note as NoteId,
    name: peer.name,
    peer: colours.of(peer.personId),
    kind: 'selected',
    words: index === 0 ? peer.name : '',
  }));

/** Marks of an arrival that is larger than this are shown without rings: a whole proposal would bury the score. */
const mostRings = 60;

function freshMarks(state: TableState, arrival: Arrival, colours: PeerColours): readonly PeerMark[] {
  if (arrival.notes.length > mostRings) return [];
  return arrival.notes.map((note, index) => ({
    note,
    name: arrival.name,
    peer: colours.of(arrival.personId),
    kind: 'fresh',
    words: index === 0 ? `${arrival.name}: ${placeWords(state, note)}, just now` : '',
  }));
}

function placeWords(state: TableState, note: NoteId): string {
  const ids = state.room.split.marks.get(note)?.lines ?? [];
  const names = activeLines(state.room.split)
    .filter((line) => ids.includes(line.id))
    .map((line) => line.name.toLowerCase());
  return names.length === 0 ? 'off its line' : names.join(' and ');
}
