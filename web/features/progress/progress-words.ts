import type { ProgressOfCourse } from '../../lib/api/courses.ts';

export type StudentProgress = ProgressOfCourse['progress'][number];

/** How far one student is in one lesson. */
export interface Walk {
  readonly walked: number;
  readonly steps: number;
  readonly sang: number;
  readonly notYet: number;
}

/** What one student's latest outcomes in a lesson come to. */
export function walkOf(progress: StudentProgress | undefined, steps: number): Walk {
  const latest = progress?.latest ?? [];
  const count = (outcome: StudentProgress['latest'][number]['outcome']) =>
    latest.filter((each) => each.outcome === outcome).length;
  return {
    walked: Math.min(latest.length, steps),
    steps,
    sang: count('sang'),
    notYet: count('notYet') + count('nearly'),
  };
}

/** A walk in words. */
export function walkWords({ walked, steps, sang, notYet }: Walk): string {
  if (walked === 0) return 'not begun';
  const parts = [
    `${walked} of ${steps} steps`,
    sang === 0 ? null : `${sang} sung`,
    notYet === 0 ? null : `${notYet} not yet there`,
  ];
  return parts.filter((part) => part !== null).join(', ');
}

/** Where a class is stuck: lessons with the share of marks that say “nearly” or “not yet”, worst first; lessons without such marks are left out. */
export function stuckLessons({
  lessons,
  progress,
}: ProgressOfCourse): readonly { readonly title: string; readonly people: number }[] {
  return lessons
    .map((lesson) => ({
      title: lesson.title,
      people: progress.filter(
        (each) => each.lessonId === lesson.lessonId && walkOf(each, lesson.pathStepCount).notYet > 0,
      ).length,
    }))
    .filter(({ people }) => people > 0)
    .sort((a, b) => b.people - a.people);
}
