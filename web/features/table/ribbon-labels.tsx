import { useMemo } from 'react';
import type { Score } from '../../../music/index.ts';
import { hasWords } from '../../engraving/ribbons/note-labels.ts';
import { useOwnSinging } from '../../lib/own-singing.ts';
import { LabelsChoice } from '../../ui/singing/labels-choice.tsx';

/** What stands at the notes of the table's ribbons. */
export function RibbonLabels({ score }: { readonly score: Score }) {
  const [{ labels }, keep] = useOwnSinging();
  const isSung = useMemo(() => hasWords(score), [score]);
  return <LabelsChoice labels={labels} hasWords={isSung} onChoose={(chosen) => keep({ labels: chosen })} />;
}
