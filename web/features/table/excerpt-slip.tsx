import { useState } from 'react';
import {
  barOf,
  fraction,
  ticksOfExcerpt,
  ticksOfPlace,
  type Bar,
  type Excerpt,
  type Place,
  type Score,
} from '../../../music/index.ts';
import { barWords, beatOf, beatWords } from '../../engraving/place-words.ts';
import { FilledButton, WordButton } from '../../ui/buttons.tsx';
import { Pick } from '../../ui/choice.tsx';
import { Slip } from '../../ui/dialog.tsx';
import styles from './table.module.css';

interface ExcerptSlipProps {
  readonly score: Score;
  readonly excerpt: Excerpt;
  readonly isOpen: boolean;
  readonly onClose: () => void;
  readonly onExcerpt: (excerpt: Excerpt | null) => void;
}

/** Which bars, and from which beat to which: phrases begin on upbeats. */
export function ExcerptSlip({ score, excerpt, isOpen, onClose, onExcerpt }: ExcerptSlipProps) {
  return (
    <Slip title="Which bars?" isOpen={isOpen} onClose={onClose}>
      <ExcerptForm score={score} excerpt={excerpt} onClose={onClose} onExcerpt={onExcerpt} />
    </Slip>
  );
}

function ExcerptForm({ score, excerpt, onClose, onExcerpt }: Omit<ExcerptSlipProps, 'isOpen'>) {
  const [from, setFrom] = useState(excerpt.from);
  const [to, setTo] = useState(excerpt.to);
  const isWhole = ticksOfExcerpt(score, { from, to }) !== null;
  const take = (taken: Excerpt | null) => {
    onExcerpt(taken);
    onClose();
  };
  return (
    <div className={styles.excerpt}>
      <PlaceRow score={score} title="From" place={from} edge="from" onPlace={setFrom} />
      <PlaceRow score={score} title="To" place={to} edge="to" onPlace={setTo} />
      {isWhole ? null : <p role="alert">The end comes before the beginning.</p>}
      <div className={styles.acts}>
        <FilledButton isDisabled={!isWhole} onPress={() => take({ from, to })}>
          Take these bars
        </FilledButton>
        <WordButton onPress={() => take(null)}>The whole song</WordButton>
      </div>
    </div>
  );
}

interface PlaceRowProps {
  readonly score: Score;
  readonly title: string;
  readonly place: Place;
  readonly edge: 'from' | 'to';
  readonly onPlace: (place: Place) => void;
}

/** Half beats of a bar, as places to begin or end at; an end may be the bar's own. */
function offsetsOf(
  score: Score,
  bar: Bar,
  edge: 'from' | 'to',
): readonly { readonly ticks: number; readonly text: string }[] {
  const step = (score.ticksPerQuarter * 2) / bar.meter.beatUnit;
  const count = Math.ceil(bar.lengthTicks / step);
  const inner = Array.from({ length: count }, (_, index) => Math.round(index * step)).filter(
    (ticks) => edge === 'from' || ticks > 0,
  );
  const word = edge === 'from' ? 'beat' : 'before beat';
  const named = inner.map((ticks) => ({
    ticks,
    text: `${word} ${beatWords(beatOf(score, bar, bar.onsetTicks + ticks))}`,
  }));
  return edge === 'from' ? named : [{ ticks: bar.lengthTicks, text: 'its end' }, ...named];
}

function PlaceRow({ score, title, place, edge, onPlace }: PlaceRowProps) {
  const bar = barOf(score, place.bar) ?? score.bars[0];
  if (bar === undefined) return null;
  const offsetTicks = (ticksOfPlace(score, place) ?? bar.onsetTicks) - bar.onsetTicks;
  const offsets = offsetsOf(score, bar, edge);
  const put = (next: Bar, ticks: number) => onPlace({ bar: next.id, offset: fraction(ticks, score.ticksPerQuarter) });
  return (
    <div className={styles.placeRow}>
      <Pick
        label={`${title} bar`}
        value={bar.id}
        options={score.bars.map((candidate) => ({
          value: candidate.id,
          text: candidate.isImplicit && candidate.ordinal === 1 ? 'the pickup' : barWords(candidate),
        }))}
        onPick={(id) => {
          const next = barOf(score, id);
          if (next !== undefined) put(next, edge === 'from' ? 0 : next.lengthTicks);
        }}
      />
      <Pick
        label={edge === 'from' ? 'at' : 'until'}
        value={String(nearest(offsets, offsetTicks))}
        options={offsets.map(({ ticks, text }) => ({ value: String(ticks), text }))}
        onPick={(ticks) => put(bar, Number(ticks))}
      />
    </div>
  );
}

const nearest = (offsets: readonly { readonly ticks: number }[], ticks: number): number =>
  offsets.reduce(
    (best, offset) => (Math.abs(offset.ticks - ticks) < Math.abs(best - ticks) ? offset.ticks : best),
    offsets[0]?.ticks ?? 0,
  );
