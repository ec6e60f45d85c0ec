import { activeLines, type Line } from '../../../music/index.ts';
import { WordButton } from '../../ui/buttons.tsx';
import { dyePaint } from '../../ui/dye.ts';
import { Eye } from '../../ui/eye.tsx';
import { Button } from 'react-aria-components';
import styles from './table.module.css';
import type { Table } from './table.ts';
import type { TableState } from './table-state.ts';

interface LinesRowProps {
  readonly table: Table;
  readonly state: TableState;
  readonly onNewLine: () => void;
}

/** The lines with their counts, in their order; the chosen one, to which picked notes go, has its thread drawn under it. */
export function LinesRow({ table, state, onNewLine }: LinesRowProps) {
  const lines = activeLines(state.room.split);
  const chosen = lines.find((line) => line.id === state.chosen);
  return (
    <div className={styles.lines} role="group" aria-label="Lines">
      <span className={styles.deed} aria-live="polite">
        {chosen === undefined ? wordsOfSelection(state.selected.size) : `notes go to ${chosen.name.toLowerCase()}`}
      </span>
      {lines.map((line, index) => (
        <LineWord key={line.id} line={line} number={index + 1} state={state} onChoose={() => table.choose(line.id)} />
      ))}
      <WordButton onPress={onNewLine}>New line</WordButton>
    </div>
  );
}

const wordsOfSelection = (count: number): string =>
  count === 0 ? 'choose a line, or notes' : `${count} ${count === 1 ? 'note' : 'notes'} chosen: now a line`;

interface LineWordProps {
  readonly line: Line;
  readonly number: number;
  readonly state: TableState;
  readonly onChoose: () => void;
}

function LineWord({ line, number, state, onChoose }: LineWordProps) {
  const count = state.counts.onLine.get(line.id) ?? 0;
  const paint = dyePaint[line.dye];
  const isChosen = state.chosen === line.id;
  return (
    <Button
      className={styles.lineWord ?? ''}
      aria-pressed={isChosen}
      aria-keyshortcuts={String(number)}
      onPress={onChoose}
    >
      <Eye line={line} size={30} />
      <span>{line.name}</span>
      <span className={`${styles.count ?? ''} numbers`}>{count}</span>
      <span className="only-heard">notes</span>
      <svg viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
        <path
          d="M0 3.5C25 .5 40 5.5 60 3S85 1.5 100 3.5"
          fill="none"
          strokeWidth="3"
          style={{ stroke: paint.colour }}
          vectorEffect="non-scaling-stroke"
        />
      </svg>
    </Button>
  );
}
