import { lazy, Suspense, useCallback, useRef, useState } from 'react';
import type { LineId } from '../../../music/index.ts';
import type { ArrangedMusic } from '../../lib/arranged-music.ts';
import { useLineTones } from '../../playback/use-line-tones.ts';
import { HangingSlip } from '../../ui/hanging-slip.tsx';
import { Wait } from '../../ui/notice.tsx';
import styles from './lesson.module.css';
import { LineSound } from './line-sound.tsx';
import type { Listening, ListenStep } from './use-listening.ts';

const ScoreSheet = lazy(async () => ({ default: (await import('../../engraving/score-sheet.tsx')).ScoreSheet }));
const WrittenOutSheet = lazy(async () => ({
  default: (await import('../../engraving/written-out-sheet.tsx')).WrittenOutSheet,
}));

interface EngravedSheetProps {
  readonly music: ArrangedMusic;
  readonly step: ListenStep;
  readonly listening: Listening;
  readonly lifted: ReadonlySet<LineId>;
  readonly view: 'stacked' | 'threaded' | 'writtenOut';
}

/** The excerpt in notation; an eye opens its line's sound, a note does what touching one does. */
export function EngravedSheet({ music, step, listening, lifted, view }: EngravedSheetProps) {
  const { player, touch, lines, snapshot } = listening;
  const tones = useLineTones(lines, snapshot);
  const [openLine, setOpenLine] = useState<LineId | null>(null);
  const anchor = useRef<HTMLElement>(null);
  const onEye = useCallback((line: LineId, _strip: HTMLElement, eye: HTMLElement) => {
    anchor.current = eye;
    setOpenLine(line);
  }, []);
  const shared = { ...music, excerpt: step.excerpt, lifted, tones, place: player.position, onNote: touch, onEye };
  const line = music.split.lines.find(({ id }) => id === openLine);
  return (
    <div className={styles.sheet}>
      <Suspense fallback={<Wait>Engraving…</Wait>}>
        {view === 'writtenOut' ? (
          <WrittenOutSheet {...shared} withOriginal={false} />
        ) : (
          <ScoreSheet {...shared} view={view} />
        )}
      </Suspense>
      {line === undefined ? null : (
        <HangingSlip
          key={line.id}
          title={line.name}
          label={`The sound of ${line.name}`}
          placement="right top"
          dye={line.dye}
          from={{ anchor, onClose: () => setOpenLine(null) }}
        >
          <LineSound line={line} listening={listening} />
        </HangingSlip>
      )}
    </div>
  );
}
