import type { PathStep } from '../../../contract/index.ts';
import type { Line, LineId } from '../../../music/index.ts';
import { isMixed, mixWithin } from './mix-edit.ts';

type Kind = PathStep['kind'];

/** What each kind of step is called. */
export const kindWords: Readonly<Record<Kind, string>> = {
  hear: 'hear it',
  echo: 'hear, sing, hear',
  reveal: 'first note, sing, reveal',
  fade: 'fades while you sing',
};

/** A step of another kind with the same id, title, view and as many of its lines and as much of its mix as that kind takes. */
export function asKind(step: PathStep, kind: Kind): PathStep {
  const { id, title, view, lines } = step;
  const [first] = lines;
  if (first === undefined || step.kind === kind) return step;
  const mix = isMixed(step) ? step.mix : [];
  switch (kind) {
    case 'hear':
      return { kind, id, title, view, lines, forward: null, mix };
    case 'echo':
      return { kind, id, title, view, lines, mix };
    case 'reveal':
      return { kind, id, title, view, lines: [first] };
    case 'fade':
      return { kind, id, title, view, lines, fading: first, passes: 4 };
  }
}

/** A step with these lines; whatever named a line that is gone is mended. Without any line it stays as it was. */
export function withLines(step: PathStep, lines: readonly LineId[]): PathStep {
  const [first] = lines;
  if (first === undefined) return step;
  switch (step.kind) {
    case 'hear':
      return {
        ...step,
        lines: [...lines],
        mix: mixWithin(step.mix, lines),
        forward: step.forward !== null && lines.includes(step.forward) ? step.forward : null,
      };
    case 'echo':
      return { ...step, lines: [...lines], mix: mixWithin(step.mix, lines) };
    case 'reveal':
      return { ...step, lines: [lines.find((line) => !step.lines.includes(line)) ?? first] };
    case 'fade':
      return { ...step, lines: [...lines], fading: lines.includes(step.fading) ? step.fading : first };
  }
}

/** A step with a line taken in or left out, lines in the split's order. A step to reveal takes the line instead of its own. */
export function withLineToggled(step: PathStep, line: LineId, order: readonly Line[]): PathStep {
  const wanted = step.lines.includes(line) ? step.lines.filter((each) => each !== line) : [...step.lines, line];
  return withLines(
    step,
    order.map(({ id }) => id).filter((id) => wanted.includes(id)),
  );
}

/** A new step to hear everybody. */
export const newPathStep = (id: string, lines: readonly Line[]): PathStep => ({
  kind: 'hear',
  id,
  title: 'Everybody',
  lines: lines.map((line) => line.id),
  forward: null,
  mix: [],
  view: 'ribbons',
});
