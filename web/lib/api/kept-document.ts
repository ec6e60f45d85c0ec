import { isFailure, plainWords } from './problem.ts';
import type { Versioned } from './request.ts';

/** What the keeper works with; the server is passed in. */
interface KeptDocumentSetup<Doc> {
  readonly fetch: () => Promise<Versioned<Doc>>;
  readonly save: (document: Doc, etag: string) => Promise<Versioned<Doc>>;
}

/** A kept document as screens see it. */
export interface KeptSnapshot<Doc> {
  /** With one's own changes, kept or not yet; null before the first answer of the server. */
  readonly document: Doc | null;
  readonly isSaving: boolean;
  /** Why the last change is not kept; null where all is. */
  readonly trouble: string | null;
}

/** What a change does to a document; done again on a newer one where somebody else was quicker. */
type Change<Doc> = (document: Doc) => Doc;

/** How long changes that come one after the other rest before they are kept. */
const restMs = 500;

/** How often in a row somebody else may be quicker before a person is asked. */
const mostMeetings = 5;

/**
 * A small document that several people change: a change shows at once and is saved at once, on whatever version the
 * server has by then. Since changes are deeds and not texts, somebody else's are kept beside one's own.
 */
export class KeptDocument<Doc> {
  readonly #setup: KeptDocumentSetup<Doc>;
  readonly #listeners = new Set<() => void>();
  #server: Versioned<Doc> | null = null;
  #waiting: readonly Change<Doc>[] = [];
  #working: Promise<void> | null = null;
  #rest: ReturnType<typeof setTimeout> | null = null;
  #snapshot: KeptSnapshot<Doc> = { document: null, isSaving: false, trouble: null };

  constructor(setup: KeptDocumentSetup<Doc>) {
    this.#setup = setup;
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  readonly getSnapshot = (): KeptSnapshot<Doc> => this.#snapshot;

  /** Fetches the document, and saves what waits. Resolves when that is done or has failed. */
  readonly load = async (): Promise<void> => this.#work();

  /** Changes the document. Resolves when that is kept or has failed; what failed waits for the next change. */
  readonly change = async (change: Change<Doc>): Promise<void> => {
    this.#waiting = [...this.#waiting, change];
    this.#tell({ isSaving: true });
    await this.#work();
  };

  /** Changes the document as one of many changes in a row, as when something is dragged: shown at once, kept once they rest. */
  readonly changeAtRest = (change: Change<Doc>): void => {
    this.#waiting = [...this.#waiting, change];
    this.#tell({ isSaving: true });
    if (this.#rest !== null) clearTimeout(this.#rest);
    this.#rest = setTimeout(() => void this.#work(), restMs);
  };

  #work(): Promise<void> {
    if (this.#rest !== null) clearTimeout(this.#rest);
    this.#rest = null;
    this.#working ??= this.#workThrough().finally(() => {
      this.#working = null;
      this.#tell({ isSaving: false });
    });
    return this.#working;
  }

  async #workThrough(): Promise<void> {
    try {
      this.#server ??= await this.#setup.fetch();
      this.#tell({ trouble: null });
      let meetings = 0;
      while (this.#waiting.length > 0 && meetings < mostMeetings) {
        meetings = (await this.#save(this.#server)) ? 0 : meetings + 1;
      }
      if (this.#waiting.length > 0) this.#tell({ trouble: 'Others change this at the same moment. Try again.' });
    } catch (thrown) {
      if (isFailure(thrown, 'body-invalid')) this.#waiting = [];
      this.#tell({ trouble: plainWords(thrown) });
    }
  }

  /** Saves what waits on this version; where it is old by now, the newer one is fetched instead. Tells whether it was saved. */
  async #save(server: Versioned<Doc>): Promise<boolean> {
    const changes = this.#waiting;
    try {
      this.#server = await this.#setup.save(changed(server.body, changes), server.etag ?? '');
      this.#waiting = this.#waiting.slice(changes.length);
      return true;
    } catch (thrown) {
      if (!isFailure(thrown, 'changed-meanwhile')) throw thrown;
      this.#server = await this.#setup.fetch();
      return false;
    } finally {
      this.#tell({});
    }
  }

  #tell(part: Partial<Omit<KeptSnapshot<Doc>, 'document'>>): void {
    const document = this.#server === null ? null : changed(this.#server.body, this.#waiting);
    this.#snapshot = { ...this.#snapshot, ...part, document };
    for (const listener of this.#listeners) listener();
  }
}

const changed = <Doc>(document: Doc, changes: readonly Change<Doc>[]): Doc =>
  changes.reduce((present, change) => change(present), document);
