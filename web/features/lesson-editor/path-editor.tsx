import type { LessonStep, PathStep } from '../../../contract/index.ts';
import { activeLines, lineFactsOf, suggestListeningPath, ticksOfExcerpt } from '../../../music/index.ts';
import type { ArrangedMusic } from '../../lib/arranged-music.ts';
import { EdgeButton, WordButton } from '../../ui/buttons.tsx';
import styles from './editor.module.css';
import type { HeardExcerpt } from './hear-mix.tsx';
import { newPathStep } from './path-edit.ts';
import { PathRow } from './path-row.tsx';

interface PathEditorProps {
  readonly step: Extract<LessonStep, { kind: 'listen' }>;
  readonly music: ArrangedMusic;
  readonly excerpt: HeardExcerpt | null;
  readonly onChange: (path: readonly PathStep[]) => void;
}

const mostSteps = 40;
const newId = () => crypto.randomUUID();

/** The path that the split suggests for an excerpt, under fresh ids, so that older marks of students stay with older steps. */
function suggested({ score, split }: ArrangedMusic, step: PathEditorProps['step']): readonly PathStep[] {
  const range = ticksOfExcerpt(score, step.excerpt);
  if (range === null) return [];
  return suggestListeningPath(activeLines(split), lineFactsOf(score, split, range)).map(
    (each) => ({ ...each, id: newId(), lines: [...each.lines], ...('mix' in each ? { mix: [] } : {}) }) as PathStep,
  );
}

/** The listening path of an excerpt: written in one click, then changed step by step. */
export function PathEditor({ step, music, excerpt, onChange }: PathEditorProps) {
  const { path } = step;
  const lines = activeLines(music.split);
  const replace = (changed: PathStep) => onChange(path.map((each) => (each.id === changed.id ? changed : each)));
  const move = (index: number, by: number) => {
    const each = path[index];
    if (each === undefined) return;
    const others = path.filter((other) => other !== each);
    onChange([...others.slice(0, index + by), each, ...others.slice(index + by)]);
  };
  return (
    <div className={styles.path}>
      <h3>Listening path</h3>
      {path.length === 0 ? (
        <p className={styles.quiet}>
          One line after the other, then together, then singing: the split knows who plays here.
        </p>
      ) : null}
      <ol className={styles.pathRows}>
        {path.map((each, index) => (
          <PathRow
            key={each.id}
            step={each}
            lines={lines}
            excerpt={excerpt}
            index={index}
            count={path.length}
            onChange={replace}
            onMove={(by) => move(index, by)}
            onRemove={() => onChange(path.filter(({ id }) => id !== each.id))}
          />
        ))}
      </ol>
      <div className={styles.deeds}>
        <EdgeButton onPress={() => onChange(suggested(music, step))} isDisabled={lines.length === 0}>
          {path.length === 0 ? 'Write the path from the lines' : 'Write it anew from the lines'}
        </EdgeButton>
        <WordButton
          isDisabled={lines.length === 0 || path.length >= mostSteps}
          onPress={() => onChange([...path, newPathStep(newId(), lines)])}
        >
          Add a step
        </WordButton>
      </div>
    </div>
  );
}
