import type { LessonStep } from '../../../contract/index.ts';

/** Their steps in their order, then each of mine that differs from theirs, so that neither side loses a word. */
export function mergedSteps(theirs: readonly LessonStep[], mine: readonly LessonStep[]): readonly LessonStep[] {
  const known = new Set(theirs.map((step) => JSON.stringify(step)));
  const ids = new Set(theirs.map(({ id }) => id));
  const own = mine.filter((step) => !known.has(JSON.stringify(step)));
  return [
    ...theirs,
    ...own.map((step) => (ids.has(step.id) ? { ...step, id: freeId(`${step.id.slice(0, 58)}-mine`, ids) } : step)),
  ];
}

function freeId(wanted: string, ids: Set<string>): string {
  let id = wanted;
  for (let number = 2; ids.has(id); number += 1) id = `${wanted}${number}`;
  ids.add(id);
  return id;
}
