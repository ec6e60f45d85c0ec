import type { PathStep } from '../../../contract/index.ts';
import type { LineId, LineSetting, Programme } from '../../../music/index.ts';

/** What the player is told for a step of a path. */
export interface StepPlan {
  readonly programme: Programme | null;
  readonly forward: LineId | null;
  readonly settings: ReadonlyMap<LineId, Partial<LineSetting>>;
}

/** How a step is wanted by the person who listens. */
export interface PlanWishes {
  readonly again: boolean;
  /** Every line that could sound. */
  readonly lines: readonly LineId[];
}

const settingsOf = (step: PathStep, lines: readonly LineId[]): StepPlan['settings'] => {
  const mix = step.kind === 'hear' || step.kind === 'echo' ? step.mix : [];
  const isEverybody = lines.every((line) => step.lines.includes(line));
  return new Map(
    lines.map((line) => {
      const own = mix.find((each) => each.line === line);
      const isSolo = step.kind === 'hear' && !isEverybody && step.lines.includes(line);
      if (own === undefined) return [line, { isSolo }];
      const { levelDb, place, tone, instrument = null } = own;
      return [line, { isSolo, levelDb, place, tone, instrument }];
    }),
  );
};

/** How much softer a fading line is in a pass: as before in the first, silent in the last. **Units** decibels. */
export function fadeDb(pass: number, passes: number): number {
  if (pass === 0) return 0;
  return pass === passes - 1 ? -60 : Math.max(-24, -8 * pass);
}

function programmeOf(step: PathStep, again: boolean): Programme | null {
  const whole = { kind: 'play', lines: step.lines.map((line) => ({ line, levelDb: 0 })) } as const;
  const afterLast = again ? 'again' : 'stop';
  switch (step.kind) {
    case 'hear':
      return null;
    case 'echo':
      return { passes: [whole, { kind: 'silence', withClick: true }, whole], afterLast };
    case 'reveal': {
      const [line] = step.lines;
      const first = line === undefined ? [] : [{ kind: 'firstNote', line } as const];
      return {
        passes: [...first, { kind: 'countIn', bars: 1 }, { kind: 'silence', withClick: true }],
        afterLast: 'stop',
      };
    }
    case 'fade':
      return {
        passes: Array.from({ length: step.passes }, (_, pass) => ({
          kind: 'play',
          lines: step.lines.map((line) => ({ line, levelDb: line === step.fading ? fadeDb(pass, step.passes) : 0 })),
        })),
        afterLast,
      };
  }
}

/** How a step is played: who sounds, who is forward, and which passes there are where it is more than playing. */
export const planOf = (step: PathStep, { again, lines }: PlanWishes): StepPlan => ({
  programme: programmeOf(step, again),
  forward: step.kind === 'hear' ? step.forward : null,
  settings: settingsOf(step, lines),
});

/** The revealing of a sung line: it sounds once. */
export const revealing = (line: LineId): Programme => ({
  passes: [{ kind: 'play', lines: [{ line, levelDb: 0 }] }],
  afterLast: 'stop',
});

/** What to do just now, in a few words; null while there is nothing to say. */
export function promptOf(
  step: PathStep | null,
  stage: 'play' | 'silence' | 'firstNote' | 'countIn' | null,
  pass: number,
): string | null {
  if (step === null || stage === null) return null;
  if (stage === 'countIn') return 'Breathe in…';
  if (stage === 'silence') return 'Now you: sing it';
  if (stage === 'firstNote') return 'This is the first note';
  if (step.kind === 'echo') return pass === 0 ? 'Listen' : 'Listen again: was it the same?';
  if (step.kind === 'fade') return `Time ${pass + 1} of ${step.passes}: sing the line that fades`;
  return null;
}
