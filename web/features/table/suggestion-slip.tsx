import { FilledButton, WordButton } from '../../ui/buttons.tsx';
import { findingWords } from './findings.ts';
import { heardWords, noteInQuestion, openWords, sameBarsWords } from './slip-words.ts';
import { Suggested } from './suggested.tsx';
import styles from './table.module.css';
import type { Table } from './table.ts';
import type { TableState } from './table-state.ts';

interface SuggestionSlipProps {
  readonly table: Table;
  readonly state: TableState;
}

/** The next thing to do: let what is proposed follow, look at a note that is open, or walk to the next one. */
export function SuggestionSlip({ table, state }: SuggestionSlipProps) {
  const { suggestion, room } = state;
  if (!room.isLoaded) return null;
  const question = noteInQuestion(state);
  return (
    <div className={styles.slip}>
      <p className="only-heard" role="status">
        {heardWords(state)}
      </p>
      {suggestion !== null && !suggestion.isFolded ? (
        <Suggested table={table} state={state} suggestion={suggestion} />
      ) : question === null ? (
        <Standing table={table} state={state} />
      ) : (
        <InQuestion table={table} state={state} place={question.place} why={question.why} />
      )}
    </div>
  );
}

/** How the split stands, and the way to what is open. */
function Standing({ table, state }: SuggestionSlipProps) {
  const { counts, isAsking, room, findings, finding, score } = state;
  const isOpen = counts.loose.length + counts.unsure.length > 0;
  return (
    <>
      <p className={styles.slipTitle}>{openWords(state)}</p>
      {finding === null ? null : <p className={styles.quiet}>{findingWords(score, room.split, finding)}</p>}
      <div className={styles.acts}>
        {isOpen ? (
          <FilledButton aria-keyshortcuts="N" onPress={() => table.walkOn()}>
            Walk to the next one
          </FilledButton>
        ) : null}
        <WordButton isDisabled={isAsking} onPress={() => table.suggesting.ask()}>
          {isAsking ? 'Proposing…' : 'Propose again'}
        </WordButton>
        {findings.length === 0 ? null : (
          <WordButton onPress={() => table.walkFindings()}>{findings.length} to check</WordButton>
        )}
        <Back table={table} state={state} />
        <WordButton isDisabled={!room.canRedo} onPress={() => table.redo()}>
          Redo
        </WordButton>
      </div>
      <MoreToDo table={table} state={state} />
    </>
  );
}

interface InQuestionProps extends SuggestionSlipProps {
  readonly place: string;
  readonly why: string;
}

/** A note that is unsure or on no line: why, and what to say about it. */
function InQuestion({ table, state, place, why }: InQuestionProps) {
  const isOnLine = state.cursor !== null && !state.counts.loose.includes(state.cursor);
  return (
    <>
      <p className={styles.slipTitle}>{place}</p>
      <p className={styles.quiet}>{why}</p>
      <div className={styles.acts}>
        {isOnLine ? (
          <FilledButton aria-keyshortcuts="Y" onPress={() => table.accept()}>
            It is right
          </FilledButton>
        ) : null}
        <WordButton onPress={() => table.walkOn()}>Next one</WordButton>
        <Back table={table} state={state} />
        <span className={styles.quiet}>{openWords(state)}</span>
      </div>
      <MoreToDo table={table} state={state} />
    </>
  );
}

/** What a correction could lead to, told in words until somebody wants to see it. */
function MoreToDo({ table, state }: SuggestionSlipProps) {
  const { same, suggestion } = state;
  if (same === null && suggestion === null) return null;
  return (
    <div className={styles.acts}>
      {same === null ? null : (
        <WordButton aria-keyshortcuts="D" onPress={() => table.suggesting.doSame()}>
          Do the same in {sameBarsWords(state, same)}
        </WordButton>
      )}
      {suggestion?.isFolded === true ? (
        <WordButton onPress={() => table.suggesting.unfold()}>
          {suggestion.follows.size} other notes could follow: look
        </WordButton>
      ) : null}
    </div>
  );
}

const Back = ({ table, state }: SuggestionSlipProps) => (
  <WordButton isDisabled={!state.room.canUndo} onPress={() => table.undo()}>
    Undo
  </WordButton>
);
