import { useMemo } from 'react';
import type { ReleaseContent } from '../../../contract/index.ts';
import { arrangementIn, frozenSplit } from '../../lib/arranged-music.ts';
import type { OwnShelf } from '../../ui/mixes/own-shelf.ts';
import { Prose } from '../../ui/prose.tsx';
import styles from './lesson.module.css';
import { ListenPaper } from './listen-paper.tsx';
import type { Practice } from './practice.ts';
import { spreadsOf } from './spreads.ts';

interface LessonReaderProps {
  readonly content: ReleaseContent;
  /** Null in a preview, where nothing is kept. */
  readonly practice: Practice | null;
  /** Null in a preview. */
  readonly ownMixes: OwnShelf | null;
}

/** A lesson from its first word to its last step, as a student walks through it. */
export function LessonReader({ content, practice, ownMixes }: LessonReaderProps) {
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
      {spreadsOf(content.steps).map(({ texts, listen }) => (
        <div
          key={listen?.id ?? texts[0]?.id}
          className={styles.spread}
          data-whole={texts.length === 0 || listen === null}
        >
          {texts.length === 0 ? null : (
            <div className={styles.text}>
              {texts.map((step) => (
                <Prose key={step.id} text={step.text} />
              ))}
            </div>
          )}
          {listen === null ? null : (
            <ListenPaper
              step={listen}
              music={music}
              playing={content.playing}
              practice={practice}
              ownMixes={ownMixes}
            />
          )}
        </div>
      ))}
    </div>
  );
}
