import { useCallback, useEffect, useMemo, useRef, useState, type PointerEvent } from 'react';
import { excerptOfBars, type Bar, type Excerpt } from '../../../music/index.ts';
import { barWords } from '../../engraving/place-words.ts';
import type { Player } from '../../playback/player.ts';
import { dyePaint } from '../../ui/dye.ts';
import { barAtStripX, barNameStep, braidOf, stripX, type StripFrame } from './song-strip-shape.ts';
import { Bracket, Pins } from './song-strip-pins.tsx';
import styles from './song-strip.module.css';
import { useBarSteps } from './use-bar-steps.ts';
import type { TableState } from './table-state.ts';

interface SongStripProps {
  readonly state: TableState;
  readonly player: Player;
  readonly onReveal: (bar: Bar) => void;
  readonly onExcerpt: (excerpt: Excerpt | null) => void;
}

const height = 66;

function useWidth(): readonly [React.RefObject<HTMLDivElement | null>, number] {
  const host = useRef<HTMLDivElement | null>(null);
  const [width, setWidth] = useState(800);
  useEffect(() => {
    if (host.current === null) return;
    const observer = new ResizeObserver(([entry]) => setWidth(Math.round(entry?.contentRect.width ?? 800)));
    observer.observe(host.current);
    return () => observer.disconnect();
  }, []);
  return [host, width];
}

/** The whole song as one braid: pins are notes on no line, question marks unsure bars, the bracket is the excerpt. */
export function SongStrip({ state, player, onReveal, onExcerpt }: SongStripProps) {
  const { score, room, counts, excerpt } = state;
  const [host, width] = useWidth();
  const frame = useMemo<StripFrame>(() => ({ width, margin: 14, top: 22, bottom: 50 }), [width]);
  const braid = useMemo(() => braidOf(score, room.split, frame), [score, room.split, frame]);
  const place = useRef<SVGPathElement>(null);
  useEffect(
    () =>
      player.position.subscribe((ticks) =>
        place.current?.setAttribute('transform', `translate(${stripX(score.bars, frame, ticks)} 0)`),
      ),
    [player, score, frame],
  );
  const drag = useStripDrag(state, frame, onReveal, onExcerpt);
  const steps = useBarSteps(score, player, onReveal);
  const step = barNameStep(score.bars.length, width);
  return (
    <div
      ref={host}
      className={`${styles.strip ?? ''} paper`}
      role="slider"
      tabIndex={0}
      aria-label={`Place in the song. ${counts.loose.length} notes on no line, ${counts.unsure.length} unsure.`}
      {...steps}
    >
      <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true" {...drag}>
        {braid.map(({ line, paths }) => (
          <g
            key={line.id}
            fill="none"
            style={{ stroke: dyePaint[line.dye].colour, strokeDasharray: dyePaint[line.dye].stitch }}
          >
            {paths.map((path) => (
              <path key={path} d={path} strokeWidth="2.2" strokeLinecap={line.dye === 'walnut' ? 'round' : 'butt'} />
            ))}
          </g>
        ))}
        {score.bars
          .filter((bar) => (bar.ordinal - 1) % step === 0 && !bar.isImplicit)
          .map((bar) => (
            <text key={bar.id} x={stripX(score.bars, frame, bar.onsetTicks)} y="63" className={styles.bar}>
              {barWords(bar)}
            </text>
          ))}
        <Pins state={state} frame={frame} />
        <Bracket state={state} frame={frame} excerpt={excerpt} />
        <path ref={place} d="M-5 2H5L0 9ZM0 9V52" className={styles.place} />
      </svg>
    </div>
  );
}

function useStripDrag(
  state: TableState,
  frame: StripFrame,
  onReveal: (bar: Bar) => void,
  onExcerpt: (excerpt: Excerpt | null) => void,
) {
  const { score } = state;
  const from = useRef<Bar | null>(null);
  const barAt = useCallback(
    (event: PointerEvent<SVGSVGElement>) =>
      barAtStripX(score.bars, frame, event.clientX - event.currentTarget.getBoundingClientRect().left),
    [score, frame],
  );
  return {
    onPointerDown: (event: PointerEvent<SVGSVGElement>) => {
      event.currentTarget.setPointerCapture(event.pointerId);
      from.current = barAt(event) ?? null;
    },
    onPointerUp: (event: PointerEvent<SVGSVGElement>) => {
      const [start, end] = [from.current, barAt(event)];
      from.current = null;
      if (start === null || end === undefined) return;
      if (start === end) onReveal(end);
      else if (start.ordinal < end.ordinal) onExcerpt(excerptOfBars(score, start.id, end.id));
      else onExcerpt(excerptOfBars(score, end.id, start.id));
    },
  };
}
