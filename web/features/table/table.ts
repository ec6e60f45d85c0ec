import {
  activeLines,
  changeLine,
  markNotes,
  notesOfOperation,
  type Excerpt,
  type LineFace,
  type LineId,
  type NoteId,
  type Operation,
  type Score,
} from '../../../music/index.ts';
import { notesOutside } from '../../engraving/sheet-place.ts';
import type { Sheet } from '../../engraving/sheet.ts';
import { nextWanted } from '../../engraving/walk.ts';
import type { RoomClient } from '../../lib/room/room-client.ts';
import type { Timers } from '../../lib/room/throttle.ts';
import type { EyeTone } from '../../ui/eye-tone.ts';
import { countSplit, type SplitCounts } from './counts.ts';
import { findingsOf, stillFound } from './findings.ts';
import { newLine } from './new-line.ts';
import { Proposer, type ProposerPort } from './proposer.ts';
import { saysTheSame } from './split-change.ts';
import { Suggesting } from './suggesting.ts';
import { lookOfTable, PeerColours } from './table-look.ts';
import { markedAsRight, markedAsWell, notesAtHand, notesBetween, splitWithStroke } from './table-picking.ts';
import type { TableState, TableView } from './table-state.ts';

/** What a table is made with. */
export interface TableSetup {
  readonly score: Score;
  readonly room: RoomClient;
  readonly newId: () => string;
  readonly view: TableView;
  readonly excerpt: Excerpt | null;
  /** Starts a worker that works proposals out. */
  readonly openProposer: () => ProposerPort;
  readonly timers: Timers;
  /** Sounds one note, as picking it does. */
  readonly sound: (note: NoteId) => void;
  /** How each line is heard just now. */
  readonly tones: () => ReadonlyMap<LineId, EyeTone>;
}

type Changes = Partial<Omit<TableState, 'room' | 'score' | 'counts' | 'findings'>>;

/** One person's work at a splitting table: what is chosen and shown here, and every deed on the shared split. */
export class Table {
  readonly colours = new PeerColours();
  readonly #setup: TableSetup;
  readonly #listeners = new Set<() => void>();
  readonly #unsubscribe: () => void;
  readonly #proposer: Proposer;
  /** What could be done next, and doing it. */
  readonly suggesting: Suggesting;
  #sheet: Sheet | null = null;
  #state: TableState;
  #outside: ReadonlySet<NoteId> = new Set();
  #stroked = new Set<NoteId>();
  #isOwnDeed = false;

  constructor(setup: TableSetup) {
    this.#setup = setup;
    const room = setup.room.getSnapshot();
    this.#state = {
      room,
      score: setup.score,
      counts: countSplit(setup.score, room.split),
      findings: findingsOf(setup.score, room.split),
      finding: null,
      view: setup.view,
      excerpt: setup.excerpt,
      chosen: null,
      lifted: new Set(),
      selected: new Set(),
      cursor: null,
      suggestion: null,
      same: null,
      isAsking: false,
      problem: null,
    };
    this.#outside = this.#outsideNow();
    this.#proposer = new Proposer({
      score: setup.score,
      openPort: setup.openProposer,
      onAnswer: (answer) => this.suggesting.answered(answer),
      onFailure: (reason) => {
        console.error('The proposer is lost.', reason);
        this.suggesting.failed();
      },
    });
    this.suggesting = new Suggesting({
      timers: setup.timers,
      proposer: this.#proposer,
      state: this.getSnapshot,
      change: (changes) => this.#change(changes),
      submit: (operation) => this.#submit(operation),
    });
    this.#unsubscribe = setup.room.subscribe(() => this.#roomChanged());
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => void this.#listeners.delete(listener);
  };

  readonly getSnapshot = (): TableState => this.#state;

  /** Lets a sheet show the table's state from now on; null lets go of it. */
  attach(sheet: Sheet | null): void {
    this.#sheet = sheet;
    this.#paint();
    if (this.#state.cursor !== null) sheet?.setCursor(this.#state.cursor, false);
  }

  destroy(): void {
    this.suggesting.destroy();
    this.#proposer.close();
    this.#unsubscribe();
    this.#listeners.clear();
  }

  /** Shows how lines are heard now. */
  tonesChanged(): void {
    this.#paint();
  }

  setView(view: TableView): void {
    this.#change({ view });
  }

  setExcerpt(excerpt: Excerpt | null): void {
    this.#change({ excerpt });
  }

  /** Some bars could not be engraved. */
  tellTrouble(error: unknown): void {
    const reason = error instanceof Error ? error.message : 'no reason given';
    this.#change({ problem: `Some bars could not be drawn (${reason}). Load the page again to try once more.` });
  }

  dismissProblem(): void {
    this.#change({ problem: null });
  }

  /** Chooses the line that picked notes go to; the same line again lets it go. */
  choose(line: LineId): void {
    if (this.#state.selected.size > 0) this.putOn(line, false);
    else this.#change({ chosen: this.#state.chosen === line ? null : line });
  }

  /** Lifts a line away from the others, or lays it back. */
  lift(line: LineId): void {
    const lifted = new Set(this.#state.lifted);
    if (!lifted.delete(line)) lifted.add(line);
    this.#change({ lifted });
  }

  /** Lifts exactly these lines. */
  liftOnly(lifted: ReadonlySet<LineId>): void {
    this.#change({ lifted });
  }

  /** Lets go of what is chosen: notes first, then the line, then what is lifted. */
  letGo(): void {
    if (this.#state.selected.size > 0) this.#change({ selected: new Set() });
    else if (this.#state.chosen !== null) this.#change({ chosen: null });
    else this.#change({ lifted: new Set() });
  }

  /** A note was picked: it goes to the chosen line, or is selected while none is. */
  pick(note: NoteId, picking: { readonly adds: boolean; readonly extends: boolean }): void {
    const { chosen, selected } = this.#state;
    if (chosen !== null && !picking.adds) {
      this.#mark([note], chosen, picking.extends);
      this.#change({ cursor: note });
      return;
    }
    const next = new Set(picking.adds || picking.extends ? selected : []);
    if (picking.extends && this.#state.cursor !== null)
      for (const between of notesBetween(this.#state.score, this.#state.room.split, this.#state.cursor, note))
        next.add(between);
    else if (!next.delete(note)) next.add(note);
    this.#change({ selected: next, cursor: note });
  }

  setCursor(cursor: NoteId | null): void {
    if (cursor !== null) this.#setup.sound(cursor);
    this.#change({ cursor });
  }

  /** Notes under a stroke: shown on the chosen line at once and marked as one when it ends; selected while none is chosen. */
  stroke(notes: readonly NoteId[]): void {
    if (this.#state.chosen === null) {
      this.#change({ selected: new Set([...this.#state.selected, ...notes]) });
      return;
    }
    for (const note of notes) this.#stroked.add(note);
    this.#paint();
  }

  strokeEnd(): void {
    const notes = [...this.#stroked];
    this.#stroked = new Set();
    const { chosen } = this.#state;
    if (chosen !== null && notes.length > 0) this.#mark(notes, chosen, false);
    else this.#paint();
  }

  /** Notes within a loop are selected, or go to the chosen line. */
  loop(notes: readonly NoteId[], adds: boolean): void {
    const { chosen } = this.#state;
    if (chosen !== null && notes.length > 0) this.#mark(notes, chosen, false);
    else this.#change({ selected: new Set(adds ? [...this.#state.selected, ...notes] : notes) });
  }

  /** Puts what is selected, else the note under the cursor, on a line; with nothing at hand the line is chosen. */
  putOn(line: LineId, adds: boolean): void {
    const notes = notesAtHand(this.#state);
    if (notes.length > 0) this.#mark(notes, line, adds);
    else this.#change({ chosen: line });
  }

  putOnNth(index: number, adds: boolean): void {
    const line = activeLines(this.#state.room.split)[index];
    if (line !== undefined) this.putOn(line.id, adds);
  }

  /** Takes what is at hand off all its lines. */
  takeOff(): void {
    const notes = notesAtHand(this.#state);
    if (notes.length > 0) this.#submit(markNotes(this.#state.room.split, notes, []));
  }

  /** Says that what is at hand is right as it is, and goes on to the next open note. */
  accept(): void {
    const operation = markedAsRight(this.#state.room.split, notesAtHand(this.#state));
    if (operation === null || this.#send(operation)) this.walkOn();
  }

  undo(): void {
    this.suggesting.stop();
    this.#asOwnDeed(() => this.#setup.room.undo());
  }

  redo(): void {
    this.suggesting.stop();
    this.#asOwnDeed(() => this.#setup.room.redo());
  }

  /** Goes to the next note that is on no line or unsure. */
  walkOn(): NoteId | null {
    const { counts, cursor, score } = this.#state;
    const wanted = new Set([...counts.loose, ...counts.unsure]);
    const next = nextWanted(score.notes, cursor, (note) => wanted.has(note.id));
    if (next !== null) this.#goTo(next.id, [next.id]);
    return next?.id ?? null;
  }

  /** Goes to the next thing that the checks found, from the first after the last. */
  walkFindings(): void {
    const { findings, finding } = this.#state;
    const next = findings[finding === null ? 0 : (findings.indexOf(finding) + 1) % findings.length];
    const first = next?.notes[0];
    if (next === undefined || first === undefined) return;
    this.#goTo(first, next.notes);
    this.#change({ finding: next });
  }

  /** Goes to the next note that would follow. */
  showFollows(): void {
    const { suggestion, cursor, score } = this.#state;
    const next = nextWanted(score.notes, cursor, (note) => suggestion?.follows.has(note.id) === true);
    if (next !== null) this.#goTo(next.id, []);
  }

  makeLine(): LineId {
    const line = newLine(this.#state.room.split, this.#setup.newId);
    this.#submit({ kind: 'makeLine', line });
    this.#change({ chosen: line.id });
    return line.id;
  }

  changeLine(line: LineId, face: LineFace): void {
    this.#submit(changeLine(this.#state.room.split, line, face));
  }

  retireLine(line: LineId): void {
    this.#submit({ kind: 'retireLine', line });
    if (this.#state.chosen === line) this.#change({ chosen: null });
  }

  #goTo(note: NoteId, selected: readonly NoteId[]): void {
    this.#change({ cursor: note, selected: new Set(selected) });
    this.#sheet?.setCursor(note);
    this.#setup.sound(note);
  }

  #mark(notes: readonly NoteId[], line: LineId, adds: boolean): void {
    const { split } = this.#state.room;
    this.#submit(adds ? markedAsWell(split, notes, line) : markNotes(split, notes, [line]));
  }

  #submit(operation: Operation | null): void {
    if (operation === null || !this.#send(operation) || operation.kind !== 'markNotes') return;
    this.suggesting.corrected(notesOfOperation(operation));
  }

  /** Whether the operation could be applied here; if so it is on its way. */
  #send(operation: Operation): boolean {
    const { isTaken, detail } = this.#asOwnDeed(() => this.#setup.room.submit(operation));
    if (!isTaken) this.#change({ problem: detail });
    return isTaken;
  }

  #asOwnDeed<Result>(deed: () => Result): Result {
    this.#isOwnDeed = true;
    try {
      return deed();
    } finally {
      this.#isOwnDeed = false;
    }
  }

  #roomChanged(): void {
    const room = this.#setup.room.getSnapshot();
    const before = this.#state.room;
    const isSame = room.split === before.split;
    const counts: SplitCounts = isSame ? this.#state.counts : countSplit(this.#state.score, room.split);
    const findings = isSame ? this.#state.findings : findingsOf(this.#state.score, room.split);
    this.#state = { ...this.#state, room, counts, findings, finding: stillFound(findings, this.#state.finding) };
    this.#paint();
    this.#tell();
    if (!before.isLoaded && room.isLoaded) this.suggesting.makeReady();
    else if (!this.#isOwnDeed && !saysTheSame(before.split, room.split)) this.suggesting.overtaken();
  }

  #outsideNow(): ReadonlySet<NoteId> {
    return this.#state.view === 'writtenOut' ? notesOutside(this.#state.score, this.#state.excerpt) : new Set();
  }

  #change(changes: Changes): void {
    const before = this.#state;
    const finding = 'cursor' in changes ? null : before.finding;
    this.#state = { ...before, finding, ...changes };
    if (before.view !== this.#state.view || before.excerpt !== this.#state.excerpt) this.#outside = this.#outsideNow();
    this.#paint();
    this.#tell();
    if (before.selected === this.#state.selected && before.cursor === this.#state.cursor) return;
    this.#tellPresence();
    this.suggesting.wentOn();
  }

  #tellPresence(): void {
    const { cursor, score } = this.#state;
    const bar = score.notes.find((note) => note.id === cursor)?.bar ?? null;
    this.#setup.room.setPresence({ bar, selection: notesAtHand(this.#state).slice(0, 500) });
  }

  #paint(): void {
    const { room, chosen } = this.#state;
    const split = chosen === null ? room.split : splitWithStroke(room.split, this.#stroked, chosen);
    const besides = { colours: this.colours, outside: this.#outside, tones: this.#setup.tones() };
    this.#sheet?.paint(lookOfTable({ ...this.#state, room: { ...room, split } }, besides));
  }

  #tell(): void {
    for (const listener of this.#listeners) listener();
  }
}
