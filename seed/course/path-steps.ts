import type { PathStep } from '../../contract/index.ts';
import type { LineId } from '../../music/index.ts';

type View = PathStep['view'];

/** A step that waits for its place in a path, which gives it its id. */
export type Unplaced = PathStep extends infer Step ? (Step extends PathStep ? Omit<Step, 'id'> : never) : never;

export const hear = (
  title: string,
  lines: readonly LineId[],
  view: View = 'ribbons',
  forward: LineId | null = null,
): Unplaced => ({
  kind: 'hear',
  title,
  lines: [...lines],
  forward,
  mix: [],
  view,
});

export const echo = (title: string, lines: readonly LineId[], view: View = 'ribbons'): Unplaced => ({
  kind: 'echo',
  title,
  lines: [...lines],
  mix: [],
  view,
});

export const reveal = (title: string, line: LineId, view: View = 'ribbons'): Unplaced => ({
  kind: 'reveal',
  title,
  lines: [line],
  view,
});

export const fade = (title: string, lines: readonly LineId[], fading: LineId, passes: number): Unplaced => ({
  kind: 'fade',
  title,
  lines: [...lines],
  fading,
  passes,
  view: 'ribbons',
});

/** The steps in order, each with an id that is its own within the lesson. */
export const path = (prefix: string, steps: readonly Unplaced[]): PathStep[] =>
  steps.map((step, index): PathStep => ({ ...step, id: `${prefix}-${index + 1}` }));
