import { useId } from 'react';
import { Button } from 'react-aria-components';
import { activeLines, type Line } from '../../../music/index.ts';
import { heardWords, lineTones } from '../../playback/line-tones.ts';
import type { Player } from '../../playback/player.ts';
import { usePlayer } from '../../playback/react.ts';
import { WordButton } from '../../ui/buttons.tsx';
import { dyePaint } from '../../ui/dye.ts';
import { heardAs, type EyeTone } from '../../ui/eye-tone.ts';
import { Eye } from '../../ui/eye.tsx';
import styles from './table.module.css';
import type { Table } from './table.ts';
import type { TableState } from './table-state.ts';

interface LinesRowProps {
  readonly table: Table;
  readonly state: TableState;
  readonly player: Player;
  readonly onNewLine: () => void;
}

/** The lines with their counts, in their order, their eyes as they are heard; the chosen one, to which picked notes go, has its thread drawn under it. */
export function LinesRow({ table, state, player, onNewLine }: LinesRowProps) {
  const heard = usePlayer(player);
  const lines = activeLines(state.room.split);
  const tones = lineTones(
    lines.map(({ id }) => id),
    heard,
  );
  const chosen = lines.find((line) => line.id === state.chosen);
  return (
    <div className={styles.lines} role="group" aria-label="Lines">
      <span className={styles.deed} aria-live="polite">
        {chosen === undefined ? wordsOfSelection(state.selected.size) : `notes go to ${chosen.name.toLowerCase()}`}
      </span>
      {lines.map((line, index) => (
        <LineWord
          key={line.id}
          line={line}
          tone={tones.get(line.id) ?? 'plain'}
          number={index + 1}
          state={state}
          onChoose={() => table.choose(line.id)}
        />
      ))}
      <WordButton onPress={onNewLine}>New line</WordButton>
      <span className="only-heard" role="status">
        {heardWords(lines, heard)}
      </span>
    </div>
  );
}

const wordsOfSelection = (count: number): string =>
  count === 0 ? 'choose a line, or notes' : `${count} ${count === 1 ? 'note' : 'notes'} chosen: now a line`;

interface LineWordProps {
  readonly line: Line;
  readonly tone: EyeTone;
  readonly number: number;
  readonly state: TableState;
  readonly onChoose: () => void;
}

function LineWord({ line, tone, number, state, onChoose }: LineWordProps) {
  const toneId = useId();
  const count = state.counts.onLine.get(line.id) ?? 0;
  const paint = dyePaint[line.dye];
  const isChosen = state.chosen === line.id;
  return (
    <Button
      className={styles.lineWord ?? ''}
      aria-pressed={isChosen}
      aria-keyshortcuts={String(number)}
      aria-describedby={toneId}
      onPress={onChoose}
    >
      <Eye line={line} tone={tone} size={30} />
      <span id={toneId} hidden>
        {heardAs[tone]}
      </span>
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
