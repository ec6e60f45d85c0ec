import type { NoteId } from '../../../music/index.ts';
import { FilledButton, WordButton } from '../../ui/buttons.tsx';
import { barsOfNotesWords } from './bar-words.ts';
import { findingWords } from './findings.ts';
import styles from './table.module.css';
import type { Suggestion } from './suggestion.ts';
import type { Table } from './table.ts';
import type { TableState } from './table-state.ts';

interface SuggestionSlipProps {
  readonly table: Table;
  readonly state: TableState;
}

/** The next thing to do: let what is proposed follow, walk through what is open, or ask for a proposal. */
export function SuggestionSlip({ table, state }: SuggestionSlipProps) {
  const { suggestion, counts, isAsking, room } = state;
  if (suggestion !== null) return <Suggested table={table} state={state} />;
  if (!room.isLoaded) return null;
  const open = counts.loose.length + counts.unsure.length;
  return (
    <div className={styles.slip}>
      <p className={styles.slipTitle}>{openWords(counts.loose.length, counts.unsure.length)}</p>
      <div className={styles.acts}>
        {open > 0 ? <FilledButton onPress={() => table.walkOn()}>Walk to the next one</FilledButton> : null}
        <WordButton isDisabled={isAsking} onPress={() => void table.ask()}>
          {isAsking ? 'Proposing…' : 'Propose again'}
        </WordButton>
        {state.findings.length === 0 ? null : (
          <WordButton onPress={() => table.walkFindings()}>{state.findings.length} to check</WordButton>
        )}
        <WordButton isDisabled={!room.canUndo} onPress={() => table.undo()}>
          Undo
        </WordButton>
        <WordButton isDisabled={!room.canRedo} onPress={() => table.redo()}>
          Redo
        </WordButton>
      </div>
      <Found state={state} />
    </div>
  );
}

const Found = ({ state }: { readonly state: TableState }) =>
  state.finding === null ? null : (
    <p className={styles.quiet} role="status">
      {findingWords(state.score, state.room.split, state.finding)}
    </p>
  );

function openWords(loose: number, unsure: number): string {
  if (loose + unsure === 0) return 'Every note has its line';
  const looseWords = `${loose} ${loose === 1 ? 'note' : 'notes'} on no line`;
  if (unsure === 0) return looseWords;
  return loose === 0 ? `${unsure} unsure` : `${looseWords}, ${unsure} unsure`;
}

function Suggested({ table, state }: SuggestionSlipProps) {
  const { follows, from } = state.suggestion ?? { follows: new Set<NoteId>(), from: 'asked' };
  if (follows.size === 0) {
    return (
      <div className={styles.slip} role="status">
        <p className={styles.slipTitle}>Nothing would change</p>
        <div className={styles.acts}>
          <WordButton onPress={() => table.leaveSuggestion()}>Good</WordButton>
        </div>
      </div>
    );
  }
  return (
    <div className={styles.slip} role="status">
      <p className={styles.slipTitle}>
        {follows.size} {from === 'offered' ? 'other ' : ''}
        {follows.size === 1 ? 'note' : 'notes'} would follow: {barsOfNotesWords(state.score, follows)}
        {newLineWords(state.suggestion)}
      </p>
      <div className={styles.acts}>
        <FilledButton onPress={() => table.follow()}>Let them follow</FilledButton>
        <WordButton onPress={() => table.showFollows()}>Show</WordButton>
        <WordButton onPress={() => table.leaveSuggestion()}>Leave them</WordButton>
        <WordButton isDisabled={!state.room.canUndo} onPress={() => table.undo()}>
          Undo
        </WordButton>
      </div>
      <Found state={state} />
    </div>
  );
}

function newLineWords(suggestion: Suggestion | null): string {
  const made = suggestion?.operation.kind === 'acceptProposal' ? suggestion.operation.lines : [];
  if (made.length === 0) return '';
  return `, with ${made.length === 1 ? 'a new line' : 'new lines'}: ${made.map((line) => line.name).join(', ')}`;
}
