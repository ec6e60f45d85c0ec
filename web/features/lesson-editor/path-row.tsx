import type { PathStep } from '../../../contract/index.ts';
import type { Line } from '../../../music/index.ts';
import { BareButton, WordButton } from '../../ui/buttons.tsx';
import { Pick } from '../../ui/choice.tsx';
import { Eye } from '../../ui/eye.tsx';
import { Field } from '../../ui/field.tsx';
import styles from './editor.module.css';
import { isMixed } from './mix-edit.ts';
import type { HeardExcerpt } from './hear-mix.tsx';
import { MixSlip } from './mix-slip.tsx';
import { asKind, kindWords, withLineToggled } from './path-edit.ts';

interface PathRowProps {
  readonly step: PathStep;
  readonly lines: readonly Line[];
  readonly excerpt: HeardExcerpt | null;
  readonly index: number;
  readonly count: number;
  readonly onChange: (step: PathStep) => void;
  readonly onMove: (by: number) => void;
  readonly onRemove: () => void;
}

const kinds = (['hear', 'echo', 'reveal', 'fade'] as const).map((value) => ({ value, text: kindWords[value] }));
const views = [
  { value: 'ribbons', text: 'ribbons' },
  { value: 'threaded', text: 'threaded' },
  { value: 'stacked', text: 'stacked' },
  { value: 'writtenOut', text: 'written out' },
] as const;

/** One step of the path: who sounds, what it is called, what it is for. */
export function PathRow({ step, lines, excerpt, index, count, onChange, onMove, onRemove }: PathRowProps) {
  const sounding = lines.filter(({ id }) => step.lines.includes(id));
  return (
    <li className={styles.pathRow}>
      <div className={styles.who} role="group" aria-label={`Lines of ${step.title}`}>
        {lines.map((line) => (
          <BareButton
            key={line.id}
            aria-label={line.name}
            aria-pressed={step.lines.includes(line.id)}
            onPress={() => onChange(withLineToggled(step, line.id, lines))}
          >
            <Eye line={line} size={32} tone={step.lines.includes(line.id) ? 'plain' : 'silent'} />
          </BareButton>
        ))}
      </div>
      <Field
        label={`Name of step ${index + 1}`}
        isLabelHidden
        value={step.title}
        onChange={(title) => onChange({ ...step, title })}
        maxLength={120}
        isRequired
      />
      <div className={styles.how}>
        <Pick label="Kind" value={step.kind} options={kinds} onPick={(kind) => onChange(asKind(step, kind))} />
        <Pick label="View" value={step.view} options={views} onPick={(view) => onChange({ ...step, view })} />
        <StepDetail step={step} lines={sounding} onChange={onChange} />
        {isMixed(step) && excerpt !== null ? (
          <MixSlip step={step} lines={lines} excerpt={excerpt} onChange={onChange} />
        ) : null}
      </div>
      <div className={styles.deeds}>
        <WordButton isDisabled={index === 0} onPress={() => onMove(-1)} aria-label={`Move ${step.title} up`}>
          Up
        </WordButton>
        <WordButton isDisabled={index === count - 1} onPress={() => onMove(1)} aria-label={`Move ${step.title} down`}>
          Down
        </WordButton>
        <WordButton onPress={onRemove} aria-label={`Take out ${step.title}`}>
          Take out
        </WordButton>
      </div>
    </li>
  );
}

interface StepDetailProps {
  readonly step: PathStep;
  readonly lines: readonly Line[];
  readonly onChange: (step: PathStep) => void;
}

const nobody = 'nobody';
const passes = [2, 3, 4, 5, 6, 7, 8].map((count) => ({ value: String(count), text: `${count} times` }));

/** What only one kind of step has: who is forward, or which line fades and over how many times. */
function StepDetail({ step, lines, onChange }: StepDetailProps) {
  const named = lines.map((line) => ({ value: line.id, text: line.name }));
  const lineOf = (id: string) => lines.find((line) => line.id === id)?.id ?? null;
  if (step.kind === 'hear' && lines.length > 1) {
    return (
      <Pick
        label="Forward"
        value={step.forward ?? nobody}
        options={[{ value: nobody, text: 'nobody' }, ...named]}
        onPick={(id) => onChange({ ...step, forward: lineOf(id) })}
      />
    );
  }
  if (step.kind === 'fade') {
    return (
      <>
        <Pick
          label="Fades"
          value={step.fading}
          options={named}
          onPick={(id) => onChange({ ...step, fading: lineOf(id) ?? step.fading })}
        />
        <Pick
          label="Over"
          value={String(step.passes)}
          options={passes}
          onPick={(count) => onChange({ ...step, passes: Number(count) })}
        />
      </>
    );
  }
  return null;
}
