import { lazy, Suspense, useCallback, useRef, useState } from 'react';
import { Popover } from 'react-aria-components';
import type { LineId } from '../../../music/index.ts';
import type { ArrangedMusic } from '../../lib/arranged-music.ts';
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
  const { player, touch } = listening;
  const [openLine, setOpenLine] = useState<LineId | null>(null);
  const anchor = useRef<HTMLElement>(null);
  const onEye = useCallback((line: LineId, strip: HTMLElement) => {
    anchor.current = strip;
    setOpenLine(line);
  }, []);
  const shared = { ...music, excerpt: step.excerpt, lifted, place: player.position, onNote: touch, onEye };
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
        <Popover
          triggerRef={anchor}
          isOpen
          onOpenChange={(isOpen) => setOpenLine(isOpen ? line.id : null)}
          placement="bottom start"
          className={styles.slip ?? ''}
        >
          <LineSound line={line} listening={listening} />
        </Popover>
      )}
    </div>
  );
}
