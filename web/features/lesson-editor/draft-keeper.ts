import type { LessonText } from '../../lib/api/lessons.ts';
import { isFailure, plainWords } from '../../lib/api/problem.ts';
import type { SaveState } from '../../ui/save-sign.tsx';
import { mergedSteps } from './merge-steps.ts';

/** A lesson's text at a version of the server. */
export interface VersionedText {
  readonly text: LessonText;
  readonly etag: string;
}

/** What the keeper works with; clock and server are passed in. */
export interface DraftSetup {
  readonly save: (text: LessonText, etag: string) => Promise<VersionedText>;
  readonly fetch: () => Promise<VersionedText>;
  /** Keeps the unsaved text where a reload finds it; null once all is saved. */
  readonly keepLocally: (draft: VersionedText | null) => void;
  readonly later: (deed: () => void, milliseconds: number) => () => void;
}

/** A draft as the editor shows it. */
export interface DraftSnapshot {
  readonly text: LessonText;
  readonly save: SaveState;
  /** What a colleague saved meanwhile; the own text is still in `text`. */
  readonly theirs: VersionedText | null;
  /** Why the last saving failed; null where it did not. */
  readonly trouble: string | null;
}

export type Resolution = 'mine' | 'theirs' | 'both';

const settleMilliseconds = 800;
const retryMilliseconds = 4_000;

/** Keeps a lesson's text while it is written: saved soon after every change, never over a colleague's work, never lost. */
export class DraftKeeper {
  readonly #setup: DraftSetup;
  readonly #listeners = new Set<() => void>();
  #snapshot: DraftSnapshot;
  #etag: string;
  #isSaving = false;
  #isDirty = false;
  #cancelLater: () => void = () => undefined;

  /** `kept` is what an earlier visit could not save. */
  constructor(server: VersionedText, setup: DraftSetup, kept: VersionedText | null = null) {
    this.#setup = setup;
    this.#etag = server.etag;
    const isSame = kept === null || JSON.stringify(kept.text) === JSON.stringify(server.text);
    this.#snapshot = { text: isSame ? server.text : kept.text, save: { kind: 'saved' }, theirs: null, trouble: null };
    if (isSame) return;
    this.#isDirty = true;
    if (kept.etag === server.etag) this.#saveLater(0);
    else this.#set({ theirs: server, save: { kind: 'differs' } });
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  readonly getSnapshot = (): DraftSnapshot => this.#snapshot;

  /** Changes the text; it is saved soon, unless a colleague's change waits to be looked at. */
  readonly edit = (change: (text: LessonText) => LessonText): void => {
    const text = change(this.#snapshot.text);
    this.#isDirty = true;
    this.#setup.keepLocally({ text, etag: this.#etag });
    if (this.#snapshot.theirs !== null) {
      this.#set({ text });
      return;
    }
    this.#set({ text, save: { kind: 'saving' } });
    if (!this.#isSaving) this.#saveLater(settleMilliseconds);
  };

  /** Settles a meeting of two changes: one's own, the colleague's, or theirs with one's own changed steps after them. */
  readonly resolve = (resolution: Resolution): void => {
    const { theirs, text: mine } = this.#snapshot;
    if (theirs === null) return;
    this.#etag = theirs.etag;
    if (resolution === 'theirs') {
      this.#isDirty = false;
      this.#setup.keepLocally(null);
      this.#set({ text: theirs.text, theirs: null, save: { kind: 'saved' } });
      return;
    }
    const text =
      resolution === 'mine' ? mine : { title: theirs.text.title, steps: mergedSteps(theirs.text.steps, mine.steps) };
    this.#set({ text, theirs: null, save: { kind: 'saving' } });
    this.#setup.keepLocally({ text, etag: this.#etag });
    this.#saveLater(0);
  };

  /** Saves at once whatever is not saved; resolves when that is done or has failed. */
  readonly settle = async (): Promise<void> => {
    this.#cancelLater();
    if (this.#isDirty && !this.#isSaving && this.#snapshot.theirs === null) await this.#save();
  };

  /** Ends all waiting; what is not saved stays kept locally. */
  readonly leave = (): void => this.#cancelLater();

  #saveLater(milliseconds: number): void {
    this.#cancelLater();
    this.#cancelLater = this.#setup.later(() => void this.#save(), milliseconds);
  }

  async #save(): Promise<void> {
    if (this.#isSaving || !this.#isDirty) return;
    this.#isSaving = true;
    this.#isDirty = false;
    try {
      const saved = await this.#setup.save(this.#snapshot.text, this.#etag);
      this.#etag = saved.etag;
      this.#isSaving = false;
      this.#afterSaving();
    } catch (thrown) {
      this.#isSaving = false;
      this.#isDirty = true;
      await this.#afterFailing(thrown);
    }
  }

  #afterSaving(): void {
    if (this.#isDirty) {
      this.#setup.keepLocally({ text: this.#snapshot.text, etag: this.#etag });
      this.#saveLater(settleMilliseconds);
      return;
    }
    this.#setup.keepLocally(null);
    this.#set({ save: { kind: 'saved' }, trouble: null });
  }

  async #afterFailing(thrown: unknown): Promise<void> {
    if (isFailure(thrown, 'changed-meanwhile')) {
      try {
        this.#set({ theirs: await this.#setup.fetch(), save: { kind: 'differs' }, trouble: null });
        return;
      } catch (fetching) {
        this.#waitAndRetry(fetching);
        return;
      }
    }
    this.#waitAndRetry(thrown);
  }

  #waitAndRetry(thrown: unknown): void {
    const isOffline = isFailure(thrown, 'offline');
    this.#set({ save: { kind: 'waiting', count: 1, what: 'change' }, trouble: isOffline ? null : plainWords(thrown) });
    if (isOffline) this.#saveLater(retryMilliseconds);
  }

  #set(part: Partial<DraftSnapshot>): void {
    this.#snapshot = { ...this.#snapshot, ...part };
    for (const listener of this.#listeners) listener();
  }
}
