import { lazy, Suspense, useCallback, useMemo } from 'react';
import type { Line, LineId, NoteId } from '../../../music/index.ts';
import { RibbonSheet } from '../../engraving/ribbons/ribbon-sheet.tsx';
import type { ArrangedMusic } from '../../lib/arranged-music.ts';
import { excerptWords } from '../../lib/excerpt-words.ts';
import { Wait } from '../../ui/notice.tsx';
import styles from './lesson.module.css';
import { LineEye } from './line-eye.tsx';
import { audibleLines } from './path-plan.ts';
import type { Listening, ListenStep } from './use-listening.ts';

const ScoreSheet = lazy(async () => ({ default: (await import('../../engraving/score-sheet.tsx')).ScoreSheet }));
const WrittenOutSheet = lazy(async () => ({
  default: (await import('../../engraving/written-out-sheet.tsx')).WrittenOutSheet,
}));

interface LookSheetProps {
  readonly music: ArrangedMusic;
  readonly step: ListenStep;
  readonly listening: Listening;
}

/** The lines that stand out: the one that is forward, else those that sound where others do not. */
function useLifted({ lines, snapshot, chosen }: Listening): ReadonlySet<LineId> {
  const { settings, forward } = snapshot;
  return useMemo(() => {
    if (forward !== null) return new Set([forward]);
    if (chosen !== null && chosen.kind !== 'hear')
      return new Set(chosen.kind === 'fade' ? [chosen.fading] : chosen.lines);
    const audible = audibleLines(lines, settings);
    return new Set(audible.length === lines.length ? [] : audible);
  }, [lines, settings, forward, chosen]);
}

/** The excerpt in the chosen way of looking; the place, the sound and the lines that stand out stay as they are. */
export function LookSheet({ music, step, listening }: LookSheetProps) {
  const { player, view, chosen, isRevealed, strengthOf, playOrStop, performance } = listening;
  const lifted = useLifted(listening);
  const isSung = chosen?.kind === 'echo' || chosen?.kind === 'reveal';
  const shown = useMemo(() => (isSung ? new Set(chosen.lines) : null), [isSung, chosen]);
  const tag = useCallback((line: Line) => <LineEye line={line} listening={listening} />, [listening]);
  const onNote = useCallback((_note: NoteId, ticks: number) => playOrStop(ticks), [playOrStop]);
  const playFrom = useCallback(
    (note: NoteId) => playOrStop(performance.events.find((event) => event.note === note)?.onsetTicks),
    [performance, playOrStop],
  );
  const isVeiled = chosen?.kind === 'reveal' && !isRevealed;
  const shared = { score: music.score, split: music.split, excerpt: step.excerpt, lifted, place: player.position };
  if (view === 'ribbons' || isVeiled) {
    return (
      <div className={styles.sheet}>
        <RibbonSheet
          {...shared}
          strengthOf={strengthOf}
          stretch={isSung ? 'sing' : 'whole'}
          isVeiled={isVeiled}
          tag={tag}
          onNote={onNote}
          label={`Ribbons of ${excerptWords(music.score, step.excerpt)}`}
          {...(shown === null ? {} : { shown })}
        />
      </div>
    );
  }
  return (
    <div className={styles.sheet}>
      <LineEyes music={music} listening={listening} />
      <Suspense fallback={<Wait>Engraving…</Wait>}>
        {view === 'writtenOut' ? (
          <WrittenOutSheet {...shared} musicXml={music.musicXml} withOriginal={false} onNote={playFrom} />
        ) : (
          <ScoreSheet {...shared} musicXml={music.musicXml} view={view} onNote={playFrom} />
        )}
      </Suspense>
    </div>
  );
}

interface LineEyesProps {
  readonly music: ArrangedMusic;
  readonly listening: Listening;
}

/** The lines' eyes in a row, for views that have none of their own. */
const LineEyes = ({ music, listening }: LineEyesProps) => (
  <div className={styles.eyes} role="group" aria-label="Lines">
    {music.split.lines
      .filter((line) => listening.lines.includes(line.id))
      .map((line) => (
        <LineEye key={line.id} line={line} listening={listening} />
      ))}
  </div>
);
