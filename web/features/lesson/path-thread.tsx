import { Button } from 'react-aria-components';
import type { PathStep } from '../../../contract/index.ts';
import type { Line } from '../../../music/index.ts';
import type { EyeTone } from '../../ui/eye-tone.ts';
import { Eye } from '../../ui/eye.tsx';
import styles from './lesson.module.css';
import type { Outcome, Practice } from './practice.ts';
import type { Listening, ListenStep } from './use-listening.ts';

interface PathThreadProps {
  readonly step: ListenStep;
  readonly lines: readonly Line[];
  readonly listening: Listening;
  readonly practice: Practice | null;
}

const outcomeWords: Readonly<Record<Outcome, string>> = {
  heard: 'heard',
  sang: 'sung',
  nearly: 'nearly',
  notYet: 'not yet',
};
const kindWords: Readonly<Record<PathStep['kind'], string | null>> = {
  hear: null,
  echo: 'sing',
  reveal: 'sing',
  fade: 'sing along',
};

/** The listening path: its steps as eyes on a thread, in order; any of them may be chosen. */
export function PathThread({ step, lines, listening, practice }: PathThreadProps) {
  return (
    <nav className={styles.pathWhole} aria-label="Listening path">
      <h3>Listening path</h3>
      <ol className={styles.path}>
        {step.path.map((each) => {
          const outcome = practice?.outcomeOf(step.id, each.id) ?? null;
          const isNow = each.id === listening.chosen?.id;
          return (
            <li key={each.id} data-done={outcome !== null} data-now={isNow}>
              <Button
                className={styles.stop ?? ''}
                aria-current={isNow ? 'step' : undefined}
                onPress={() => listening.choose(each)}
              >
                <span className={styles.stopEyes}>
                  <StepEyes step={each} lines={lines} />
                </span>
                <span className={styles.stopTitle}>{each.title}</span>
                <span className={styles.stopState}>
                  {[kindWords[each.kind], outcome === null ? null : outcomeWords[outcome]]
                    .filter((words) => words !== null)
                    .join(', ')}
                </span>
              </Button>
            </li>
          );
        })}
      </ol>
    </nav>
  );
}

function toneIn(step: PathStep, line: Line): EyeTone {
  if (step.kind === 'fade') return step.fading === line.id ? 'faint' : 'plain';
  if (step.kind === 'hear' && step.forward !== null) return step.forward === line.id ? 'forward' : 'faint';
  return 'plain';
}

interface StepEyesProps {
  readonly step: PathStep;
  readonly lines: readonly Line[];
}

/** The eyes of the lines that a step lets sound, overlapping a little. */
export const StepEyes = ({ step, lines }: StepEyesProps) => (
  <>
    {lines
      .filter((line) => step.lines.includes(line.id))
      .map((line) => (
        <Eye key={line.id} line={line} tone={toneIn(step, line)} size={30} />
      ))}
  </>
);
