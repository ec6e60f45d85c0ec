import type { LessonStep } from '../../../contract/index.ts';

/** Text and the excerpt that it leads to, side by side where there is room. */
export interface Spread {
  readonly texts: readonly Extract<LessonStep, { kind: 'text' }>[];
  readonly listen: Extract<LessonStep, { kind: 'listen' }> | null;
}

/** The steps of a lesson as spreads, in their order, every step once: an excerpt closes the spread of the texts before it. */
export function spreadsOf(steps: readonly LessonStep[]): readonly Spread[] {
  const spreads: Spread[] = [];
  let texts: Spread['texts'] = [];
  for (const step of steps) {
    if (step.kind === 'text') texts = [...texts, step];
    else {
      spreads.push({ texts, listen: step });
      texts = [];
    }
  }
  return texts.length === 0 ? spreads : [...spreads, { texts, listen: null }];
}
