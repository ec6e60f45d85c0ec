import {
  performLines,
  ticksOfExcerpt,
  unfoldedRanges,
  type Excerpt,
  type NoteId,
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
  #restTicks: number | null = null;
  #timer: ReturnType<typeof setTimeout> | null = null;
  readonly #unfolded: readonly TickRange[];
  readonly #listeners = new Set<() => void>();
  #followsRepeats = true;

  constructor(player: Player, score: Score, room: RoomClient) {
    this.player = player;
    this.#score = score;
    this.#unfolded = unfoldedRanges(score);
    this.#room = room;
    this.#unsubscribe = room.subscribe(() => this.#later());
    this.#later();
  }

  get isPlaying(): boolean {
    return ['playing', 'starting', 'waiting'].includes(this.player.getSnapshot().status);
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => void this.#listeners.delete(listener);
  };

  /** Whether repeats and jumps are followed, or everything is played once as it is printed; null where the score has none. */
  readonly getRepeats = (): boolean | null => (this.#unfolded.length > 1 ? this.#followsRepeats : null);

  /** Follows repeats and jumps from now on, or plays as printed; the place stays. */
  setRepeats(follows: boolean): void {
    this.#followsRepeats = follows;
    this.#perform();
    for (const listener of this.#listeners) listener();
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

  /** Sounds what touching a note is to sound and lets the place rest there, unless music plays. */
  touch(note: NoteId): void {
    if (this.isPlaying) return;
    const { touch } = this.player.getSnapshot();
    if (touch === 'stroke' || touch === 'spread') this.touchSlice(note, touch);
    else this.#sound(note, [note], 'stroke');
  }

  /** Sounds everything that starts with a note: at one stroke, or from low to high. */
  touchSlice(note: NoteId, manner: 'stroke' | 'spread'): void {
    const onset = this.#onsetOf(note);
    const slice = this.#score.notes.filter(({ onsetTicks }) => onsetTicks === onset).map(({ id }) => id);
    if (!this.isPlaying) this.#sound(note, slice, manner);
  }

  /** Plays on from a note, whatever goes on. */
  playFrom(note: NoteId): void {
    this.#load();
    this.player.play(this.#onsetOf(note));
  }

  #sound(at: NoteId, notes: readonly NoteId[], manner: 'stroke' | 'spread'): void {
    this.#load();
    const onset = this.#onsetOf(at);
    if (onset !== undefined) this.player.moveTo(onset);
    this.player.playNotes(notes, manner);
  }

  #onsetOf(note: NoteId): number | undefined {
    return this.#score.notes.find(({ id }) => id === note)?.onsetTicks;
  }

  destroy(): void {
    this.#unsubscribe();
    if (this.#timer !== null) clearTimeout(this.#timer);
    void this.player.close();
  }

  #play(): void {
    this.#load();
    this.player.playOn();
  }

  #perform(): void {
    if (this.#loaded === null) return;
    const options = this.#followsRepeats ? { ranges: this.#unfolded } : {};
    this.player.load(performLines(this.#score, this.#loaded, options));
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
    this.#perform();
    if (isFirst && this.#restTicks !== null) this.player.moveTo(this.#restTicks);
  }
}
