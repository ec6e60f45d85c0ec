import type { Bar, Excerpt, Score } from '../../../music/index.ts';
import { Pick } from '../../ui/choice.tsx';
import styles from './editor.module.css';
import { barFrom, beatAt, beatsOf, withEnd, withStart } from './excerpt-edit.ts';

interface ExcerptFieldsProps {
  readonly score: Score;
  readonly excerpt: Excerpt;
  readonly onChange: (excerpt: Excerpt) => void;
}

const end = 'end';
const barWords = (bar: Bar): string =>
  (bar.label === '' ? `no. ${bar.ordinal}` : bar.label) + (bar.rehearsalMark === null ? '' : ` (${bar.rehearsalMark})`);

/** From which bar and beat to which: phrases may begin and end within a bar. */
export function ExcerptFields({ score, excerpt, onChange }: ExcerptFieldsProps) {
  const bars = score.bars.map((bar) => ({ value: bar.id, text: barWords(bar) }));
  const first = barFrom(score, excerpt.from.bar) ?? score.bars[0];
  const last = barFrom(score, excerpt.to.bar) ?? score.bars[0];
  if (first === undefined || last === undefined) return null;
  const startBeat = beatAt(score, excerpt.from) ?? 1;
  const endBeat = beatAt(score, excerpt.to);
  const beatOptions = (bar: Bar, held: number | null) =>
    [...new Set([...beatsOf(score, bar), ...(held === null ? [] : [held])])]
      .sort((a, b) => a - b)
      .map((beat) => ({ value: String(beat), text: `beat ${beat}` }));
  const takeBar = (id: string, change: (bar: Bar) => Excerpt) => {
    const bar = barFrom(score, id);
    if (bar !== undefined) onChange(change(bar));
  };
  return (
    <div className={styles.excerpt} role="group" aria-label="Excerpt">
      <Pick
        label="From bar"
        value={first.id}
        options={bars}
        onPick={(id) => takeBar(id, (bar) => withStart(score, excerpt, bar, 1))}
      />
      <Pick
        label="on"
        value={String(startBeat)}
        options={beatOptions(first, startBeat)}
        onPick={(beat) => onChange(withStart(score, excerpt, first, Number(beat)))}
      />
      <Pick
        label="to bar"
        value={last.id}
        options={bars}
        onPick={(id) => takeBar(id, (bar) => withEnd(score, excerpt, bar, null))}
      />
      <Pick
        label="until"
        value={endBeat === null ? end : String(endBeat)}
        options={[
          { value: end, text: 'its end' },
          ...beatOptions(last, endBeat)
            .filter(({ value }) => value !== '1')
            .map((option) => ({ ...option, text: `before ${option.text}` })),
        ]}
        onPick={(beat) => onChange(withEnd(score, excerpt, last, beat === end ? null : Number(beat)))}
      />
    </div>
  );
}
