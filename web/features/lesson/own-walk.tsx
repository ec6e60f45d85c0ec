import type { LessonStep } from '../../../contract/index.ts';
import styles from './lesson.module.css';
import type { Practice } from './practice.ts';

interface OwnWalkProps {
  readonly steps: readonly LessonStep[];
  readonly practice: Practice;
}

/** How far somebody has walked this lesson's paths. */
export function OwnWalk({ steps, practice }: OwnWalkProps) {
  const stops = steps.flatMap((step) => (step.kind === 'listen' ? step.path.map((each) => ({ step, each })) : []));
  const heard = stops.filter(({ each }) => each.kind === 'hear');
  const sung = stops.filter(({ each }) => each.kind !== 'hear');
  const done = (those: typeof stops) =>
    those.filter(({ step, each }) => practice.outcomeOf(step.id, each.id) !== null).length;
  const got = sung.filter(({ step, each }) => practice.outcomeOf(step.id, each.id) === 'sang').length;
  if (stops.length === 0) return null;
  return (
    <p className={styles.own}>
      Your walk so far: {done(heard)} of {heard.length} steps heard
      {sung.length === 0 ? null : `, ${done(sung)} of ${sung.length} sung, ${got} of them just right`}.
    </p>
  );
}
