/** Where playing is, as a sheet needs it. */
export interface PlaceSource {
  /** **Units** written ticks; null while nothing plays. */
  readonly placeTicks: () => number | null;
  readonly isMoving: () => boolean;
  /** Tells `listener` when playing starts, stops or jumps, until the returned function is called. */
  readonly subscribe: (listener: () => void) => () => void;
}

/** Calls `show` once a frame while the place moves, and once more whenever it stops or jumps; ends when the returned function is called. */
export function followPlace(source: PlaceSource, show: (ticks: number | null) => void): () => void {
  let frame = 0;
  const step = () => {
    show(source.placeTicks());
    frame = source.isMoving() ? requestAnimationFrame(step) : 0;
  };
  const wake = () => {
    if (frame === 0) frame = requestAnimationFrame(step);
  };
  const unsubscribe = source.subscribe(wake);
  wake();
  return () => {
    unsubscribe();
    cancelAnimationFrame(frame);
  };
}
