import { FilledButton, WordButton } from '../../ui/buttons.tsx';
import { noteInQuestion, sameBarsWords, sameDetailWords, suggestionWords } from './slip-words.ts';
import type { SameThere } from './same-there.ts';
import type { Suggestion } from './suggestion.ts';
import styles from './table.module.css';
import type { Table } from './table.ts';
import type { TableState } from './table-state.ts';

interface SuggestedProps {
  readonly table: Table;
  readonly state: TableState;
  readonly suggestion: Suggestion;
}

/** What would follow, ringed on the heads: to be taken in one step, looked at, or left. */
export function Suggested({ table, state, suggestion }: SuggestedProps) {
  const { suggesting } = table;
  const { same } = state;
  const isSame = suggestion.from === 'same';
  const them = suggestion.follows.size === 1 ? 'it' : 'them';
  if (suggestion.follows.size === 0)
    return (
      <>
        <p className={styles.slipTitle}>{suggestionWords(state, suggestion)}</p>
        <div className={styles.acts}>
          <WordButton onPress={() => suggesting.leave()}>Good</WordButton>
        </div>
      </>
    );
  return (
    <>
      <p className={styles.slipTitle}>{suggestionWords(state, suggestion)}</p>
      <Detail state={state} suggestion={suggestion} />
      <div className={`${styles.acts ?? ''} ${styles.allSeen ?? ''}`}>
        <FilledButton aria-keyshortcuts="F" onPress={() => suggesting.follow()}>
          {isSame ? `Mark ${them}` : `Let ${them} follow`}
        </FilledButton>
        <WordButton onPress={() => table.showFollows()}>Show</WordButton>
        <WordButton onPress={() => suggesting.leave()}>Leave {them}</WordButton>
        {isSame && holdsMoreThanVaried(same) ? (
          <WordButton onPress={() => suggesting.leaveOutVaried()}>Without the nearly alike</WordButton>
        ) : null}
        {isSame || same === null ? null : (
          <WordButton aria-keyshortcuts="D" onPress={() => suggesting.doSame()}>
            Do the same in {sameBarsWords(state, same)}
          </WordButton>
        )}
        <WordButton isDisabled={!state.room.canUndo} onPress={() => table.undo()}>
          Undo
        </WordButton>
      </div>
    </>
  );
}

/** Whether some of the bars are only nearly alike and others are more than that. */
const holdsMoreThanVaried = (same: SameThere | null): boolean =>
  new Set(same?.bars.map(({ likeness }) => likeness === 'varied')).size === 2;

/** The note one looks at, else how like the bars are. */
function Detail({ state, suggestion }: Pick<SuggestedProps, 'state' | 'suggestion'>) {
  const question = noteInQuestion(state);
  const { same } = state;
  if (question !== null)
    return (
      <p className={styles.quiet}>
        {question.place}: {question.why}
      </p>
    );
  if (suggestion.from === 'same' && same !== null)
    return <p className={styles.quiet}>{sameDetailWords(state, same)}</p>;
  return null;
}
