import type { LessonStep, NamedMix, Playing, ReleaseContent } from '../../contract/index.ts';
import { activeLines, type Line, type LineId, type Split } from '../../music/index.ts';
import { DomainError } from '../errors/domain-error.ts';
import type { PathStepName } from './release.entity.ts';

/** All that a release is frozen from. */
export interface ReleaseSources {
  readonly title: string;
  readonly song: { readonly title: string; readonly composer: string };
  readonly steps: readonly LessonStep[];
  readonly musicXml: string;
  readonly arrangementParts: readonly string[];
  /** The notes of those parts. */
  readonly notes: ReadonlySet<string>;
  readonly split: Split;
  readonly playing: Playing;
}

type ListenStep = Extract<LessonStep, { kind: 'listen' }>;

const listenSteps = (steps: readonly LessonStep[]): ListenStep[] => steps.filter((step) => step.kind === 'listen');

function linesUsed(steps: readonly LessonStep[]): Set<LineId> {
  const used = new Set<LineId>();
  for (const step of listenSteps(steps).flatMap(({ path }) => path)) {
    for (const line of step.lines) used.add(line);
    if (step.kind === 'hear' && step.forward !== null) used.add(step.forward);
    if (step.kind === 'fade') used.add(step.fading);
  }
  return used;
}

const barsNamed = (musicXml: string): ReadonlySet<string> =>
  new Set(Array.from(musicXml.matchAll(/<measure\b[^>]*?\sid="([^"]+)"/g), (match) => match[1] ?? ''));

function linesToKeep(split: Split, steps: readonly LessonStep[]): Line[] {
  const used = linesUsed(steps);
  const kept = [...activeLines(split), ...split.lines.filter((line) => line.isRetired && used.has(line.id))];
  const known = new Set(kept.map((line) => line.id));
  const unknown = [...used].filter((line) => !known.has(line));
  if (unknown.length === 0) return kept;
  throw new DomainError(
    'operation-unknown-line',
    'A step of this lesson plays a line that the split does not have. Choose its lines again.',
    unknown,
  );
}

function refuseUnknownBars(steps: readonly LessonStep[], musicXml: string): void {
  const bars = barsNamed(musicXml);
  const lost = listenSteps(steps).filter(({ excerpt }) => !bars.has(excerpt.from.bar) || !bars.has(excerpt.to.bar));
  if (lost.length === 0) return;
  const issues = lost.map(({ id, title }) => ({
    path: `steps.${id}.excerpt`,
    detail: `“${title}” names a bar that the score does not have.`,
  }));
  throw new DomainError(
    'body-invalid',
    'A step of this lesson names a bar that the score does not have. Choose its excerpt again.',
    issues,
  );
}

/** A mix without the lines that are gone. */
const mixOfKnown = (mix: NamedMix, known: ReadonlySet<LineId>): NamedMix => ({
  ...mix,
  lines: mix.lines.filter(({ line }) => known.has(line)),
  forward: mix.forward !== null && known.has(mix.forward) ? mix.forward : null,
});

const stepOfKnown = (step: LessonStep, known: ReadonlySet<LineId>): LessonStep =>
  step.kind === 'listen' ? { ...step, mixes: step.mixes.map((mix) => mixOfKnown(mix, known)) } : step;

const playingOfKnown = ({ expression, human }: Playing, known: ReadonlySet<LineId>): Playing => ({
  expression: { ...expression, lines: expression.lines.filter(({ line }) => known.has(line)) },
  human,
});

/** The frozen content: the lesson, the score and the split as they stand, and nothing about people. **Errors** `operation-unknown-line`, `body-invalid` for an excerpt that is gone. */
export function releaseContentOf(sources: ReleaseSources): ReleaseContent {
  const { title, song, musicXml, arrangementParts, notes, split } = sources;
  refuseUnknownBars(sources.steps, musicXml);
  const lines = linesToKeep(split, sources.steps);
  const known = new Set(lines.map((line) => line.id));
  const marks: ReleaseContent['marks'] = [];
  for (const [note, mark] of split.marks) {
    const kept = mark.lines.filter((line) => known.has(line));
    if (notes.has(note) && kept.length > 0) marks.push([note, kept]);
  }
  return {
    schema: 1,
    title,
    song,
    steps: sources.steps.map((step) => stepOfKnown(step, known)),
    playing: playingOfKnown(sources.playing, known),
    musicXml,
    arrangementParts: [...arrangementParts],
    lines,
    marks,
  };
}

/** Every path step that can be tried in these steps. */
export const pathStepsOf = (steps: readonly LessonStep[]): PathStepName[] =>
  listenSteps(steps).flatMap((step) => step.path.map((pathStep) => ({ stepId: step.id, pathStepId: pathStep.id })));
