import { useState } from 'react';
import type { Line } from '../../../music/index.ts';
import { levelWords, placeWords } from '../../lib/sound-words.ts';
import { WordButton } from '../../ui/buttons.tsx';
import { Slip } from '../../ui/dialog.tsx';
import { Eye } from '../../ui/eye.tsx';
import { Setting } from '../../ui/setting.tsx';
import styles from './editor.module.css';
import { mixOf, mixSummary, withLineMix, type MixedStep } from './mix-edit.ts';

interface MixSlipProps {
  readonly step: MixedStep;
  /** The lines that sound in the step. */
  readonly lines: readonly Line[];
  readonly onChange: (step: MixedStep) => void;
}

/** How loud each line of a step is and from which side it comes: a word in the row, a slip behind it. */
export function MixSlip({ step, lines, onChange }: MixSlipProps) {
  const [isOpen, setOpen] = useState(false);
  const summary = mixSummary(step, lines);
  return (
    <span className={styles.mix}>
      <WordButton onPress={() => setOpen(true)} aria-label={`Mix of ${step.title}`}>
        Mix …
      </WordButton>
      {summary === null ? null : <span className={styles.quiet}>{summary}</span>}
      <Slip title={`Mix of “${step.title}”`} isOpen={isOpen} onClose={() => setOpen(false)}>
        {lines.map((line) => (
          <MixOfLine key={line.id} step={step} line={line} onChange={onChange} />
        ))}
        <div className={styles.deeds}>
          <WordButton isDisabled={step.mix.length === 0} onPress={() => onChange({ ...step, mix: [] })}>
            All as they are
          </WordButton>
        </div>
      </Slip>
    </span>
  );
}

interface MixOfLineProps extends Omit<MixSlipProps, 'lines'> {
  readonly line: Line;
}

function MixOfLine({ step, line, onChange }: MixOfLineProps) {
  const { levelDb, place } = mixOf(step, line.id);
  return (
    <div className={styles.mixLine} role="group" aria-label={line.name}>
      <Eye line={line} />
      <span className={styles.mixName}>{line.name}</span>
      <Setting
        label="Level"
        value={levelDb}
        least={-24}
        most={6}
        step={1}
        words={levelWords}
        onSet={(level) => onChange(withLineMix(step, line.id, { levelDb: level }))}
      />
      <Setting
        label="Place"
        value={place}
        least={-1}
        most={1}
        step={0.1}
        shape="sides"
        words={placeWords}
        onSet={(side) => onChange(withLineMix(step, line.id, { place: Math.round(side * 10) / 10 }))}
      />
    </div>
  );
}
