import {
  activeLines,
  changeLine,
  linesOfNote,
  markNotes,
  type Excerpt,
  type LineFace,
  type LineId,
  type NoteId,
  type Operation,
  type Score,
  type Split,
} from '../../../music/index.ts';
import { notesOutside } from '../../engraving/sheet-place.ts';
import type { Sheet } from '../../engraving/sheet.ts';
import { nextWanted } from '../../engraving/walk.ts';
import type { RoomClient } from '../../lib/room/room-client.ts';
import type { Timers } from '../../lib/room/throttle.ts';
import { countSplit, type SplitCounts } from './counts.ts';
import { findingsOf, stillFound } from './findings.ts';
import { FollowUp } from './follow-up.ts';
import { newLine } from './new-line.ts';
import { isWorthOffering, leaving, suggestionOf, type LeftNotes } from './suggestion.ts';
import { lookOfTable, PeerColours } from './table-look.ts';
import type { TableState, TableView } from './table-state.ts';

/** What a table is made with. */
export interface TableSetup {
  readonly score: Score;
  readonly room: RoomClient;
  readonly newId: () => string;
  readonly view: TableView;
  readonly excerpt: Excerpt | null;
  /** Asks the server what it would propose now. */
  readonly askProposal: () => Promise<{ readonly operation: Operation }>;
  readonly timers: Timers;
  /** Sounds one note, as picking it does. */
  readonly sound: (note: NoteId) => void;
}

type Changes = Partial<Omit<TableState, 'room' | 'score' | 'counts' | 'findings'>>;

/** One person's work at a splitting table: what is chosen and shown here, and every deed on the shared split. */
export class Table {
  readonly colours = new PeerColours();
  readonly #setup: TableSetup;
  readonly #listeners = new Set<() => void>();
  readonly #unsubscribe: () => void;
  readonly #followUp: FollowUp;
  #sheet: Sheet | null = null;
  #state: TableState;
  #outside: ReadonlySet<NoteId> = new Set();
  #stroked = new Set<NoteId>();
  #left: LeftNotes = new Map();

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
      isAsking: false,
      problem: null,
    };
    this.#outside = this.#outsideNow();
    this.#followUp = this.#followUpOf(setup);
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
    this.#followUp.stop();
    this.#unsubscribe();
    this.#listeners.clear();
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
      for (const between of this.#between(this.#state.cursor, note)) next.add(between);
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
    const notes = this.#atHand();
    if (notes.length > 0) this.#mark(notes, line, adds);
    else this.#change({ chosen: line });
  }

  putOnNth(index: number, adds: boolean): void {
    const line = activeLines(this.#state.room.split)[index];
    if (line !== undefined) this.putOn(line.id, adds);
  }

  /** Takes what is at hand off all its lines. */
  takeOff(): void {
    const notes = this.#atHand();
    if (notes.length > 0) this.#submit(markNotes(this.#state.room.split, notes, []));
  }

  undo(): void {
    this.#followUp.stop();
    this.#change({ suggestion: null });
    this.#setup.room.undo();
  }

  redo(): void {
    this.#followUp.stop();
    this.#change({ suggestion: null });
    this.#setup.room.redo();
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

  /** Asks what the tool would propose now for what no person has touched. */
  async ask(): Promise<void> {
    this.#change({ isAsking: true, problem: null });
    try {
      this.#followUp.stop();
      const { operation } = await this.#setup.askProposal();
      const suggestion = suggestionOf(operation, this.#state.room.split, new Map(), 'asked');
      this.#change({ suggestion, isAsking: false });
    } catch (error) {
      this.#change({ isAsking: false, problem: error instanceof Error ? error.message : 'The proposal did not come.' });
    }
  }

  /** Takes the suggestion, in one step that can be taken back. */
  follow(): void {
    const { suggestion } = this.#state;
    this.#change({ suggestion: null });
    if (suggestion !== null && suggestion.follows.size > 0) this.#submit(suggestion.operation);
  }

  /** Leaves things as they are; the same is not suggested again unasked. */
  leaveSuggestion(): void {
    const { suggestion } = this.#state;
    if (suggestion !== null) this.#left = leaving(this.#left, suggestion);
    this.#change({ suggestion: null });
  }

  #goTo(note: NoteId, selected: readonly NoteId[]): void {
    this.#change({ cursor: note, selected: new Set(selected) });
    this.#sheet?.setCursor(note);
    this.#setup.sound(note);
  }

  #followUpOf({ timers, askProposal, room }: TableSetup): FollowUp {
    return new FollowUp({
      timers,
      ask: askProposal,
      isSaved: () => room.getSnapshot().saveState.kind === 'saved',
      onProposal: (operation) => {
        const suggestion = suggestionOf(operation, this.#state.room.split, this.#left, 'offered');
        if (suggestion !== null && isWorthOffering(suggestion, this.#state.score.notes.length))
          this.#change({ suggestion });
      },
    });
  }

  #atHand(): readonly NoteId[] {
    const { selected, cursor } = this.#state;
    if (selected.size > 0) return [...selected];
    return cursor === null ? [] : [cursor];
  }

  #mark(notes: readonly NoteId[], line: LineId, adds: boolean): void {
    const { split } = this.#state.room;
    if (!adds) {
      this.#submit(markNotes(split, notes, [line]));
      return;
    }
    const changes = notes.flatMap((note) => {
      const lines = linesOfNote(split, note);
      const next = lines.includes(line) ? lines.filter((other) => other !== line) : [...lines, line].slice(-2);
      const operation = markNotes(split, [note], next);
      return operation?.kind === 'markNotes' ? operation.changes : [];
    });
    this.#submit(changes.length === 0 ? null : { kind: 'markNotes', changes });
  }

  #submit(operation: Operation | null): void {
    if (operation === null) return;
    const { isTaken, detail } = this.#setup.room.submit(operation);
    if (!isTaken) this.#change({ problem: detail });
    else if (operation.kind === 'markNotes') {
      this.#change({ suggestion: null });
      this.#followUp.marked();
    }
  }

  #between(from: NoteId, to: NoteId): readonly NoteId[] {
    const { score, room } = this.#state;
    const lines = linesOfNote(room.split, from);
    const [a, b] = [from, to].map((id) => score.notes.findIndex((note) => note.id === id));
    const stretch = score.notes.slice(Math.min(a ?? 0, b ?? 0), Math.max(a ?? 0, b ?? 0) + 1);
    const sameLine = stretch.filter((note) => linesOfNote(room.split, note.id).some((line) => lines.includes(line)));
    return [from, to, ...sameLine.map((note) => note.id)];
  }

  #roomChanged(): void {
    const room = this.#setup.room.getSnapshot();
    const isSame = room.split === this.#state.room.split;
    const counts: SplitCounts = isSame ? this.#state.counts : countSplit(this.#state.score, room.split);
    const findings = isSame ? this.#state.findings : findingsOf(this.#state.score, room.split);
    this.#state = { ...this.#state, room, counts, findings, finding: stillFound(findings, this.#state.finding) };
    this.#followUp.saved();
    this.#paint();
    this.#tell();
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
    if (before.selected !== this.#state.selected || before.cursor !== this.#state.cursor) this.#tellPresence();
  }

  #tellPresence(): void {
    const { cursor, selected, score } = this.#state;
    const bar = score.notes.find((note) => note.id === cursor)?.bar ?? null;
    const selection = selected.size > 0 ? [...selected] : cursor === null ? [] : [cursor];
    this.#setup.room.setPresence({ bar, selection: selection.slice(0, 500) });
  }

  #paint(): void {
    const { room, chosen } = this.#state;
    const split = chosen === null ? room.split : splitWithStroke(room.split, this.#stroked, chosen);
    this.#sheet?.paint(lookOfTable({ ...this.#state, room: { ...room, split } }, this.colours, this.#outside));
  }

  #tell(): void {
    for (const listener of this.#listeners) listener();
  }
}

/** The split as it will be once a stroke has ended. */
function splitWithStroke(split: Split, stroked: ReadonlySet<NoteId>, line: LineId): Split {
  if (stroked.size === 0) return split;
  const marks = new Map(split.marks);
  for (const note of stroked)
    marks.set(note, { lines: [line], from: 'person', confidence: null, revision: split.revision });
  return { ...split, marks };
}
