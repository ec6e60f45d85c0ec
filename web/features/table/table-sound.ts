import {
  performLines,
  ticksOfExcerpt,
  type Excerpt,
  type NoteId,
  type Performance,
  type Score,
  type Split,
  type TickRange,
} from '../../../music/index.ts';
import type { Player } from '../../playback/player.ts';
import type { RoomClient } from '../../lib/room/room-client.ts';
import type { TableState } from './table-state.ts';

const settleMs = 250;

/** Keeps the player's music in step with the split: at once when it is to play, a moment after each change while it plays. */
export class TableSound {
  readonly player: Player;
  readonly #score: Score;
  readonly #room: RoomClient;
  readonly #unsubscribe: () => void;
  #loaded: Split | null = null;
  #performance: Performance | null = null;
  #restTicks: number | null = null;
  #timer: ReturnType<typeof setTimeout> | null = null;

  constructor(player: Player, score: Score, room: RoomClient) {
    this.player = player;
    this.#score = score;
    this.#room = room;
    this.#unsubscribe = room.subscribe(() => this.#later());
    this.#later();
  }

  get isPlaying(): boolean {
    return ['playing', 'starting', 'waiting'].includes(this.player.getSnapshot().status);
  }

  /** Plays from where the music rests, or stops. */
  playOrStop(): void {
    if (this.isPlaying) this.player.stop();
    else this.#play();
  }

  /** Plays a stretch, round and round. */
  playRange(range: TickRange): void {
    this.player.setLoop(range);
    this.#load();
    this.player.play(range.startTicks);
  }

  /** Repeats the excerpt from now on, or nothing. */
  setAgain({ excerpt, score }: TableState, isAgain: boolean): void {
    this.player.setLoop(isAgain && excerpt !== null ? ticksOfExcerpt(score, excerpt) : null);
  }

  /** Lets the place rest where an excerpt begins, unless music plays. */
  restAt(excerpt: Excerpt | null): void {
    const range = excerpt === null ? null : ticksOfExcerpt(this.#score, excerpt);
    this.#restTicks = range?.startTicks ?? null;
    if (range !== null && this.#loaded !== null && !this.isPlaying) this.player.moveTo(range.startTicks);
  }

  /** Sounds one note and lets the place rest there, unless music plays. */
  touch(note: NoteId): void {
    if (this.isPlaying) return;
    this.#load();
    const onset = this.#score.notes.find((candidate) => candidate.id === note)?.onsetTicks;
    if (onset !== undefined) this.player.moveTo(onset);
    this.player.playNotes([note]);
  }

  destroy(): void {
    this.#unsubscribe();
    if (this.#timer !== null) clearTimeout(this.#timer);
    void this.player.close();
  }

  #play(): void {
    this.#load();
    const { loop } = this.player.getSnapshot();
    const at = this.player.position.getTicks();
    const end = this.#performance?.ranges.at(-1)?.endTicks ?? 0;
    if (loop !== null) this.player.play(at > loop.startTicks && at < loop.endTicks ? at : loop.startTicks);
    else this.player.play(at >= end - 1 ? 0 : at);
  }

  #later(): void {
    const { isLoaded, split } = this.#room.getSnapshot();
    if (!isLoaded || split === this.#loaded || this.#timer !== null) return;
    this.#timer = setTimeout(() => this.#load(), settleMs);
  }

  #load(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
    const { split } = this.#room.getSnapshot();
    if (split === this.#loaded) return;
    const isFirst = this.#loaded === null;
    this.#loaded = split;
    this.#performance = performLines(this.#score, split);
    this.player.load(this.#performance);
    if (isFirst && this.#restTicks !== null) this.player.moveTo(this.#restTicks);
  }
}
