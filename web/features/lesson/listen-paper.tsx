import { useId } from 'react';
import type { Playing } from '../../../contract/index.ts';
import type { TickRange } from '../../../music/index.ts';
import type { ArrangedMusic } from '../../lib/arranged-music.ts';
import { excerptWords } from '../../lib/excerpt-words.ts';
import { Notice } from '../../ui/notice.tsx';
import { LabelsChoice } from '../../ui/singing/labels-choice.tsx';
import { ViewSwitch } from '../../ui/view-switch.tsx';
import styles from './lesson.module.css';
import { LookSheet } from './look-sheet.tsx';
import { PathThread } from './path-thread.tsx';
import { PlayLine } from './play-line.tsx';
import type { Practice } from './practice.ts';
import { SingSlip } from './sing-slip.tsx';
import { useHeardMark } from './use-heard-mark.ts';
import type { OwnShelf } from '../../ui/mixes/own-shelf.ts';
import { useListening, useRange, type ListenStep, type View } from './use-listening.ts';

const views: readonly { readonly view: View; readonly text: string }[] = [
  { view: 'ribbons', text: 'Ribbons' },
  { view: 'threaded', text: 'Threaded' },
  { view: 'stacked', text: 'Stacked' },
  { view: 'writtenOut', text: 'Written out' },
];

interface ListenPaperProps {
  readonly step: ListenStep;
  readonly music: ArrangedMusic;
  readonly playing: Playing;
  readonly practice: Practice | null;
  /** The listener's own mixes; null in a preview. */
  readonly ownMixes: OwnShelf | null;
}

/** One excerpt to look at, listen to and sing. */
export function ListenPaper(props: ListenPaperProps) {
  const { step, music } = props;
  const range = useRange(music, step);
  if (range === null)
    return (
      <Notice kind="trouble">
        The bars of “{step.title}” are no longer in the score. The other steps work as before.
      </Notice>
    );
  return <Listen {...props} range={range} />;
}

interface ListenProps extends ListenPaperProps {
  readonly range: TickRange;
}

function Listen({ step, music, playing, practice, ownMixes, range }: ListenProps) {
  const listening = useListening({ music, step, range, playing });
  const titleId = useId();
  useHeardMark(step.id, listening, practice);
  const isHidden = listening.chosen?.kind === 'reveal' && !listening.isRevealed;
  return (
    <section className={`paper ${styles.paper ?? ''}`} aria-labelledby={titleId} data-listen={step.id}>
      <header className={styles.head}>
        <h2 id={titleId}>{step.title}</h2>
        <span className={styles.bars}>{excerptWords(music.score, step.excerpt)}</span>
        {listening.view === 'ribbons' || isHidden ? <LabelsChoice score={music.score} /> : null}
        {isHidden ? null : (
          <ViewSwitch label="Way of looking" views={views} chosen={listening.view} onChoose={listening.look} />
        )}
      </header>
      <LookSheet music={music} step={step} listening={listening} />
      <SingSlip key={listening.chosen?.id ?? ''} step={step} listening={listening} practice={practice} />
      <PlayLine step={step} music={music} listening={listening} ownMixes={ownMixes} />
      {step.path.length === 0 ? null : (
        <PathThread step={step} lines={music.split.lines} listening={listening} practice={practice} />
      )}
      {listening.snapshot.problem === null ? null : <Notice kind="trouble">{listening.snapshot.problem}</Notice>}
    </section>
  );
}
