import { useMemo } from 'react';
import type { ReleaseContent } from '../../../contract/index.ts';
import { arrangementIn, frozenSplit } from '../../lib/arranged-music.ts';
import { Prose } from '../../ui/prose.tsx';
import styles from './lesson.module.css';
import { ListenPaper } from './listen-paper.tsx';
import type { Practice } from './practice.ts';

interface LessonReaderProps {
  readonly content: ReleaseContent;
  /** Null in a preview, where nothing is kept. */
  readonly practice: Practice | null;
}

/** A lesson from its first word to its last step, as a student walks through it. */
export function LessonReader({ content, practice }: LessonReaderProps) {
  const music = useMemo(
    () => ({
      musicXml: content.musicXml,
      score: arrangementIn(content.musicXml, content.arrangementParts),
      split: frozenSplit(content.lines, content.marks),
    }),
    [content],
  );
  return (
    <div className={styles.lesson}>
      <div className={styles.opening}>
        <p className={styles.song}>
          {content.song.title}
          {content.song.composer === '' ? null : <span> by {content.song.composer}</span>}
        </p>
        <h1>{content.title}</h1>
      </div>
      {content.steps.map((step) =>
        step.kind === 'text' ? (
          <section key={step.id} className={styles.text}>
            <Prose text={step.text} />
          </section>
        ) : (
          <ListenPaper key={step.id} step={step} music={music} practice={practice} />
        ),
      )}
    </div>
  );
}
