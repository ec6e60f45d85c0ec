import { useCallback, useMemo } from 'react';
import { audibleLines, type Line, type LineId } from '../../../music/index.ts';
import { labelsOf } from '../../engraving/ribbons/note-labels.ts';
import { RibbonSheet } from '../../engraving/ribbons/ribbon-sheet.tsx';
import type { ArrangedMusic } from '../../lib/arranged-music.ts';
import { excerptWords } from '../../lib/excerpt-words.ts';
import { useOwnSinging } from '../../lib/own-singing.ts';
import { MovedNote } from '../../ui/singing/moved-note.tsx';
import { EngravedSheet } from './engraved-sheet.tsx';
import styles from './lesson.module.css';
import { LineEye } from './line-eye.tsx';
import type { Listening, ListenStep } from './use-listening.ts';

interface LookSheetProps {
  readonly music: ArrangedMusic;
  readonly step: ListenStep;
  readonly listening: Listening;
}

/** The lines that stand out: those that are lifted, else the one that is forward, else those that sound where others do not. */
function useLifted({ lines, snapshot, chosen, lifted }: Listening): ReadonlySet<LineId> {
  const { settings, forward } = snapshot;
  return useMemo(() => {
    if (lifted.size > 0) return lifted;
    if (forward !== null) return new Set([forward]);
    if (chosen !== null && chosen.kind !== 'hear')
      return new Set(chosen.kind === 'fade' ? [chosen.fading] : chosen.lines);
    const audible = audibleLines(lines, settings);
    return new Set(audible.length === lines.length ? [] : audible);
  }, [lines, settings, forward, chosen, lifted]);
}

/** The excerpt in the chosen way of looking; the place, the sound and the lines that stand out stay as they are. */
export function LookSheet({ music, step, listening }: LookSheetProps) {
  const { player, view, chosen, isRevealed, strengthOf, touch, singing } = listening;
  const [{ labels: kind, verse }] = useOwnSinging();
  const labels = useMemo(() => labelsOf(singing.score, { labels: kind, verse }), [singing.score, kind, verse]);
  const lifted = useLifted(listening);
  const isSung = chosen?.kind === 'echo' || chosen?.kind === 'reveal';
  const shown = useMemo(() => (isSung ? new Set(chosen.lines) : undefined), [isSung, chosen]);
  const tag = useCallback((line: Line) => <LineEye line={line} listening={listening} />, [listening]);
  const isVeiled = chosen?.kind === 'reveal' && !isRevealed;
  if (view !== 'ribbons' && !isVeiled) {
    return (
      <>
        <MovedNote singing={singing} shown="written" />
        <EngravedSheet music={music} step={step} listening={listening} lifted={lifted} view={view} />
      </>
    );
  }
  return (
    <div className={styles.sheet}>
      <MovedNote singing={singing} shown="sounding" />
      <RibbonSheet
        score={singing.score}
        labels={labels}
        split={music.split}
        excerpt={step.excerpt}
        strengthOf={strengthOf}
        lifted={lifted}
        place={player.position}
        stretch={isSung ? 'sing' : 'whole'}
        isVeiled={isVeiled}
        tag={tag}
        onNote={touch}
        label={`Ribbons of ${excerptWords(music.score, step.excerpt)}`}
        {...(shown === undefined ? {} : { shown })}
        {...(singing.sung === undefined ? {} : { sung: singing.sung })}
      />
    </div>
  );
}
