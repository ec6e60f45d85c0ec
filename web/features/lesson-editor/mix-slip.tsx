import { useMemo, useState } from 'react';
import { plainSetting, type Line } from '../../../music/index.ts';
import { WordButton } from '../../ui/buttons.tsx';
import { Slip } from '../../ui/dialog.tsx';
import { LineMixer } from '../../ui/line-mixer.tsx';
import { MixByEye } from '../../ui/mixes/mix-by-eye.tsx';
import styles from './editor.module.css';
import { HearMix, type HeardExcerpt } from './hear-mix.tsx';
import { heardMixOf, mixOf, mixSummary, withLineMix, type MixedStep } from './mix-edit.ts';

interface MixSlipProps {
  readonly step: MixedStep;
  /** All lines of the song. */
  readonly lines: readonly Line[];
  readonly excerpt: HeardExcerpt;
  readonly onChange: (step: MixedStep) => void;
}

/** How the lines of a step sound: a word in the row, a slip behind it, in which one line after the other is set and heard. */
export function MixSlip(props: MixSlipProps) {
  const { step, lines } = props;
  const [isOpen, setOpen] = useState(false);
  const summary = mixSummary(
    step,
    lines.filter(({ id }) => step.lines.includes(id)),
  );
  return (
    <span className={styles.mix}>
      <WordButton onPress={() => setOpen(true)} aria-label={`Mix of ${step.title}`}>
        Mix …
      </WordButton>
      {summary === null ? null : <span className={styles.quiet}>{summary}</span>}
      <Slip title={`Mix of “${step.title}”`} isOpen={isOpen} onClose={() => setOpen(false)}>
        <MixForm {...props} />
      </Slip>
    </span>
  );
}

function MixForm({ step, lines, excerpt, onChange }: MixSlipProps) {
  const heard = useMemo(
    () =>
      heardMixOf(
        step,
        lines.map(({ id }) => id),
      ),
    [step, lines],
  );
  return (
    <>
      <HearMix excerpt={excerpt} mix={heard} />
      <MixByEye lines={lines.filter(({ id }) => step.lines.includes(id))} heard={heard}>
        {(line) => (
          <LineMixer
            setting={{ ...plainSetting, ...mixOf(step, line.id) }}
            hasPitch={line.role !== 'percussion'}
            deeds={null}
            onSet={(part) => onChange(withLineMix(step, line.id, part))}
          />
        )}
      </MixByEye>
      <div className={styles.deeds}>
        <WordButton isDisabled={step.mix.length === 0} onPress={() => onChange({ ...step, mix: [] })}>
          All as they are
        </WordButton>
      </div>
    </>
  );
}
