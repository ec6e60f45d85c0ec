import type { SongSound } from '../../../contract/index.ts';
import {
  performLines,
  sungAlong,
  ticksOfExcerpt,
  unfoldedRanges,
  type Excerpt,
  type NoteId,
  type Score,
  type SingAlong,
  type Split,
  type TickRange,
  instrumentsOf,
} from '../../../music/index.ts';
import type { KeptDocument } from '../../lib/api/kept-document.ts';
import type { Player } from '../../playback/player.ts';
import type { RoomClient } from '../../lib/room/room-client.ts';
import type { TableState } from './table-state.ts';

const settleMs = 250;

/** What a performance is made from, to tell whether anything of it has changed. */
interface Made {
  readonly split: Split;
  readonly playing: SongSound['playing'] | undefined;
  readonly instruments: string;
  readonly along: SingAlong;
}

/** Keeps the player's music in step with the split and with how the song is played: at once when it is to play, a moment after each change while it plays. */
export class TableSound {
  readonly player: Player;
  readonly #score: Score;
  readonly #room: RoomClient;
  readonly #kept: KeptDocument<SongSound>;
  readonly #unsubscribe: readonly (() => void)[];
  #loaded: Made | null = null;
  #restTicks: number | null = null;
  #timer: ReturnType<typeof setTimeout> | null = null;
  readonly #unfolded: readonly TickRange[];
  readonly #listeners = new Set<() => void>();
  #followsRepeats = true;
  #along: SingAlong = { line: null, octaves: 0, semitones: 0 };

  constructor(player: Player, score: Score, room: RoomClient, kept: KeptDocument<SongSound>) {
    this.player = player;
    this.#score = score;
    this.#unfolded = unfoldedRanges(score);
    this.#room = room;
    this.#kept = kept;
    const later = () => this.#later();
    this.#unsubscribe = [room.subscribe(later), kept.subscribe(later), player.subscribe(later)];
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

  /** Lets a line be sung along with from now on; the place stays. */
  singAlong(along: SingAlong): void {
    this.#along = along;
    this.#later();
  }

  /** Plays from where the music rests, or stops. */
  playOrStop(): void {
    if (this.isPlaying) this.player.stop();
    else this.#play();
  }

  /** Plays the stretch of the notes that are chosen, round and round; with none, plays or stops. */
  playSelection({ score, selected }: TableState): void {
    const notes = score.notes.filter((note) => selected.has(note.id));
    const startTicks = notes[0]?.onsetTicks;
    if (startTicks === undefined) {
      this.playOrStop();
      return;
    }
    this.player.setLoop({
      startTicks,
      endTicks: Math.max(...notes.map((note) => note.onsetTicks + note.lengthTicks)),
    });
    this.#load();
    this.player.play(startTicks);
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
    for (const end of this.#unsubscribe) end();
    if (this.#timer !== null) clearTimeout(this.#timer);
    void this.player.close();
  }

  #play(): void {
    this.#load();
    this.player.playOn();
  }

  #perform(): void {
    if (this.#loaded === null) return;
    const { split, playing, along } = this.#loaded;
    const performance = performLines(this.#score, split, {
      ...playing,
      instruments: instrumentsOf(this.player.getSnapshot().settings),
      ...(this.#followsRepeats ? { ranges: this.#unfolded } : {}),
    });
    this.player.load(sungAlong(performance, this.#score, along));
  }

  #later(): void {
    if (!this.#room.getSnapshot().isLoaded || this.#timer !== null || this.#isMade(this.#wanted())) return;
    this.#timer = setTimeout(() => this.#load(), settleMs);
  }

  #load(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
    const wanted = this.#wanted();
    if (this.#isMade(wanted)) return;
    const isFirst = this.#loaded === null;
    this.#loaded = wanted;
    this.#perform();
    if (isFirst && this.#restTicks !== null) this.player.moveTo(this.#restTicks);
  }

  #wanted(): Made {
    const instruments = JSON.stringify([...instrumentsOf(this.player.getSnapshot().settings)]);
    const { playing } = this.#kept.getSnapshot().document ?? {};
    return { split: this.#room.getSnapshot().split, playing, instruments, along: this.#along };
  }

  #isMade({ split, playing, instruments, along }: Made): boolean {
    const made = this.#loaded;
    if (made === null || made.along !== along) return false;
    return made.split === split && made.playing === playing && made.instruments === instruments;
  }
}
