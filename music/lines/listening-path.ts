import type { LineId } from '../basis/ids.ts';
import type { Line } from '../operations/split.ts';
import { activeLines, type Split } from '../operations/split.ts';
import type { TickRange } from '../score/excerpt.ts';
import type { Score } from '../score/score.ts';
import { lineNotes } from './line-notes.ts';

/** What a line has to offer within an excerpt. */
export interface LineFacts {
  readonly line: LineId;
  readonly pitchedNotes: number;
  readonly hits: number;
  /** From its lowest to its highest sounding note; 0 without two of them. **Units** semitones. */
  readonly rangeSemitones: number;
}

type SuggestedView = 'ribbons' | 'threaded';
interface StepShape {
  readonly id: string;
  readonly title: string;
  readonly view: SuggestedView;
}

/** One step of a suggested path, in the shape that a lesson keeps. */
export type SuggestedStep =
  | (StepShape & {
      readonly kind: 'hear';
      readonly lines: readonly LineId[];
      readonly forward: LineId | null;
      readonly mix: readonly never[];
    })
  | (StepShape & { readonly kind: 'echo'; readonly lines: readonly LineId[]; readonly mix: readonly never[] })
  | (StepShape & { readonly kind: 'reveal'; readonly lines: readonly [LineId] })
  | (StepShape & {
      readonly kind: 'fade';
      readonly lines: readonly LineId[];
      readonly fading: LineId;
      readonly passes: number;
    });

type Unnumbered<Step> = Step extends SuggestedStep ? Omit<Step, 'id'> : never;
type NewStep = Unnumbered<SuggestedStep>;

/** The facts of every active line of a split within a stretch, in the split's order. */
export function lineFactsOf(
  score: Pick<Score, 'notes'>,
  split: Pick<Split, 'lines' | 'marks'>,
  range: TickRange,
): readonly LineFacts[] {
  return activeLines(split).map((line) => {
    const notes = lineNotes(score, split, line.id, range).map(({ note }) => note);
    const heights = notes.flatMap(({ sound }) => (sound.kind === 'pitched' ? [sound.soundingMidi] : []));
    const rangeSemitones = heights.length < 2 ? 0 : Math.max(...heights) - Math.min(...heights);
    return { line: line.id, pitchedNotes: heights.length, hits: notes.length - heights.length, rangeSemitones };
  });
}

/** Two octaves less a semitone: more than an untrained singer has. Common practice, no source. */
const widestSungRange = 23;

interface Cast {
  readonly percussion: readonly Line[];
  readonly bass: Line | null;
  readonly melody: Line | null;
  readonly between: readonly Line[];
  /** Everyone who sounds, in the split's order. */
  readonly all: readonly Line[];
  readonly canBeSung: (line: Line) => boolean;
}

function castOf(lines: readonly Line[], facts: readonly LineFacts[]): Cast {
  const factsOf = (line: Line) => facts.find((each) => each.line === line.id);
  const sounding = lines.filter(
    (line) => !line.isRetired && (factsOf(line)?.pitchedNotes ?? 0) + (factsOf(line)?.hits ?? 0) > 0,
  );
  const percussion = sounding.filter((line) => line.role === 'percussion' || factsOf(line)?.pitchedNotes === 0);
  const pitched = sounding.filter((line) => !percussion.includes(line));
  const bass = pitched.find((line) => line.role === 'bass') ?? null;
  const melody = pitched.find((line) => line.role === 'melody') ?? pitched.find((line) => line !== bass) ?? null;
  const canBeSung = (line: Line) =>
    (factsOf(line)?.pitchedNotes ?? 0) > 1 && (factsOf(line)?.rangeSemitones ?? 0) <= widestSungRange;
  return {
    percussion,
    bass,
    melody,
    between: pitched.filter((line) => line !== bass && line !== melody),
    all: sounding,
    canBeSung,
  };
}

const hear = (title: string, lines: readonly Line[], view: SuggestedView, forward: Line | null = null): NewStep => ({
  kind: 'hear',
  title,
  lines: lines.map(({ id }) => id),
  forward: forward?.id ?? null,
  mix: [],
  view,
});

const alone = (line: Line): NewStep => hear(`${line.name} alone`, [line], 'ribbons');
const named = (lines: readonly Line[]): string =>
  lines.map((line, index) => (index === 0 ? line.name : line.name.toLowerCase())).join(' and ');

/** From the ground up: what keeps time, what carries, both, then the lines above. */
function oneByOne({ percussion, bass, melody, between }: Cast): readonly NewStep[] {
  const ground = bass === null ? percussion : [...percussion, bass];
  const together = percussion.length > 0 && bass !== null ? [hear(`${named(ground)} together`, ground, 'ribbons')] : [];
  return [...percussion, ...(bass === null ? [] : [bass])]
    .map(alone)
    .concat(together, (melody === null ? between : [melody, ...between]).map(alone));
}

function inPairs({ bass, melody, between }: Cast): readonly NewStep[] {
  const pairs: (readonly [Line, Line])[] = [];
  if (melody !== null && bass !== null) pairs.push([melody, bass]);
  for (const middle of between) {
    if (melody !== null) pairs.push([melody, middle]);
    if (bass !== null) pairs.push([middle, bass]);
  }
  return pairs.map((pair) => hear(named(pair), pair, 'ribbons'));
}

function everybody({ all, melody }: Cast): readonly NewStep[] {
  if (all.length < 3) return [];
  const forward =
    melody === null ? [] : [hear(`Everybody, ${melody.name.toLowerCase()} forward`, all, 'threaded', melody)];
  return [hear('Everybody', all, 'threaded'), ...forward];
}

const echo = (line: Line): NewStep => ({
  kind: 'echo',
  title: `Echo the ${line.name.toLowerCase()}`,
  lines: [line.id],
  mix: [],
  view: 'ribbons',
});

function singing({ bass, melody, all, canBeSung }: Cast): readonly NewStep[] {
  const sung = [bass, melody].filter((line) => line !== null).filter(canBeSung);
  const main = sung.at(-1);
  if (main === undefined) return [];
  const reveal: NewStep = {
    kind: 'reveal',
    title: `Sing the ${main.name.toLowerCase()} from its first note`,
    lines: [main.id],
    view: 'ribbons',
  };
  const lines = all.map(({ id }) => id);
  const fade: NewStep = {
    kind: 'fade',
    title: `Keep the ${main.name.toLowerCase()} while it fades`,
    lines,
    fading: main.id,
    passes: 4,
    view: 'ribbons',
  };
  return [...sung.map(echo), reveal, ...(all.length > 1 ? [fade] : [])];
}

/**
 * A listening path for an excerpt: percussion alone, bass alone, the two together, melody, what lies between, pairs,
 * everybody, everybody with the melody forward, then steps to sing in. Lines without a note there are left out.
 */
export function suggestListeningPath(lines: readonly Line[], facts: readonly LineFacts[]): readonly SuggestedStep[] {
  const cast = castOf(lines, facts);
  const steps = [...oneByOne(cast), ...inPairs(cast), ...everybody(cast), ...singing(cast)];
  return steps.map((step, index) => ({ ...step, id: `step-${index + 1}` }));
}
