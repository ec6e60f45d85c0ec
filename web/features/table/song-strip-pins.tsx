import { useMemo } from 'react';
import { ticksOfExcerpt, type Bar, type Excerpt } from '../../../music/index.ts';
import { barsWithNotes, stripX, type StripFrame } from './song-strip-shape.ts';
import styles from './song-strip.module.css';
import type { TableState } from './table-state.ts';

/** Pins for bars with notes on no line, question marks for unsure ones, dotted rings where notes would follow. */
export function Pins({ state, frame }: { readonly state: TableState; readonly frame: StripFrame }) {
  const { score, counts, suggestion } = state;
  const middle = (bar: Bar): number => stripX(score.bars, frame, bar.onsetTicks + bar.lengthTicks / 2);
  const ringRadius = (bar: Bar): number =>
    Math.max(2, Math.min(7, middle(bar) - stripX(score.bars, frame, bar.onsetTicks) - 1.5));
  const loose = useMemo(() => barsWithNotes(score, counts.loose), [score, counts.loose]);
  const unsure = useMemo(
    () => barsWithNotes(score, counts.unsure).filter((bar) => !loose.includes(bar)),
    [score, counts.unsure, loose],
  );
  const follows = useMemo(
    () => barsWithNotes(score, suggestion?.isFolded === false ? suggestion.follows : []),
    [score, suggestion],
  );
  return (
    <g aria-hidden="true">
      {loose.map((bar) => (
        <g key={bar.id} className={styles.pin}>
          <path d={`M${middle(bar)} 13V24`} />
          <circle cx={middle(bar)} cy="9.5" r="3.6" />
        </g>
      ))}
      {unsure.map((bar) => (
        <text key={bar.id} x={middle(bar)} y="15" className={styles.unsure}>
          ?
        </text>
      ))}
      {follows.map((bar) => (
        <circle key={bar.id} cx={middle(bar)} cy="10" r={ringRadius(bar)} className={styles.follows} />
      ))}
    </g>
  );
}

/** The bracket around the excerpt. */
export function Bracket({
  state,
  frame,
  excerpt,
}: {
  readonly state: TableState;
  readonly frame: StripFrame;
  readonly excerpt: Excerpt | null;
}) {
  const range = excerpt === null ? null : ticksOfExcerpt(state.score, excerpt);
  if (range === null) return null;
  const [left, right] = [range.startTicks, range.endTicks].map((ticks) => stripX(state.score.bars, frame, ticks));
  return (
    <path
      className={styles.bracket}
      d={`M${(left ?? 0) + 5} 17H${left ?? 0}V53H${(left ?? 0) + 5}M${(right ?? 0) - 5} 17H${right ?? 0}V53H${(right ?? 0) - 5}`}
    />
  );
}
