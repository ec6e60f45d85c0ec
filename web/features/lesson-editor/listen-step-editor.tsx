import { useMemo } from 'react';
import type { LessonStep, SongSound } from '../../../contract/index.ts';
import { assumedTempo, performLines, ticksOfExcerpt, type Line, type NoteId } from '../../../music/index.ts';
import { RibbonSheet } from '../../engraving/ribbons/ribbon-sheet.tsx';
import type { ArrangedMusic } from '../../lib/arranged-music.ts';
import { excerptWords } from '../../lib/excerpt-words.ts';
import { Eye } from '../../ui/eye.tsx';
import { Field } from '../../ui/field.tsx';
import { Notice } from '../../ui/notice.tsx';
import { Setting } from '../../ui/setting.tsx';
import styles from './editor.module.css';
import { ExcerptFields } from './excerpt-fields.tsx';
import { PathEditor } from './path-editor.tsx';
import { replaceStep, type Edit } from './step-edits.ts';
import { StepMixes } from './step-mixes.tsx';

type ListenStep = Extract<LessonStep, { kind: 'listen' }>;

interface ListenStepEditorProps {
  readonly step: ListenStep;
  readonly music: ArrangedMusic;
  readonly songSound: SongSound;
  readonly edit: Edit;
}

const tag = (line: Line) => <Eye line={line} />;

/** An excerpt with its picture, its tempo and its listening path. */
export function ListenStepEditor({ step, music, songSound, edit }: ListenStepEditorProps) {
  const { score, split } = music;
  const change = (part: Partial<ListenStep>) => edit(replaceStep({ ...step, ...part }));
  const range = useMemo(() => ticksOfExcerpt(score, step.excerpt), [score, step.excerpt]);
  const { tempoPercent } = step;
  const { playing } = songSound;
  const excerpt = range === null ? null : { music, range, tempoPercent, playing };
  const written =
    score.tempos.findLast((mark) => mark.onsetTicks <= (range?.startTicks ?? 0))?.quartersPerMinute ?? assumedTempo;
  const strengthOf = useMemo(() => {
    const strengths = new Map(performLines(score, split).events.map((event) => [event.note, event.strength]));
    return (note: NoteId) => strengths.get(note) ?? 0.5;
  }, [score, split]);
  return (
    <div className={styles.listen}>
      <Field
        label="What it is called"
        value={step.title}
        onChange={(title) => change({ title })}
        maxLength={120}
        isRequired
      />
      <ExcerptFields score={score} excerpt={step.excerpt} onChange={(excerpt) => change({ excerpt })} />
      {range === null ? (
        <Notice kind="trouble">These bars are no longer in the score. Choose others above.</Notice>
      ) : (
        <div className={`paper ${styles.picture ?? ''}`}>
          <RibbonSheet
            score={score}
            split={split}
            excerpt={step.excerpt}
            strengthOf={strengthOf}
            tag={tag}
            label={`Picture of ${excerptWords(score, step.excerpt)}`}
          />
        </div>
      )}
      <div className={styles.tempo}>
        <Setting
          label="Tempo"
          value={step.tempoPercent}
          least={25}
          most={150}
          step={5}
          words={(percent) => `${Math.round((written * percent) / 100)} a minute, ${percent} % of the written tempo`}
          onSet={(tempoPercent) => change({ tempoPercent })}
        />
      </div>
      <PathEditor step={step} music={music} excerpt={excerpt} onChange={(path) => change({ path: [...path] })} />
      <StepMixes
        mixes={step.mixes}
        songMixes={songSound.mixes}
        music={music}
        excerpt={excerpt}
        onChange={(mixes) => change({ mixes })}
      />
    </div>
  );
}
