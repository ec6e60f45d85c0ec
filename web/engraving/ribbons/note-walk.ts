import type { LineId, NoteId } from '../../../music/index.ts';
import type { Sheet } from './layout.ts';

/** A note or hit as the keyboard reaches it. */
export interface Stop {
  readonly note: NoteId;
  readonly line: LineId;
  readonly startTicks: number;
}

/** Every note and hit of a sheet on its lines, in time; a shared note is a stop of both its lines. */
export const stopsOf = (sheet: Pick<Sheet, 'rows'>): readonly Stop[] =>
  sheet.rows
    .flatMap((row) => [
      ...row.eyes.flatMap((eye) =>
        eye.lines.map((line) => ({ note: eye.note, line: line.id, startTicks: eye.startTicks })),
      ),
      ...row.hits.map((hit) => ({ note: hit.note, line: hit.line.id, startTicks: hit.startTicks })),
    ])
    .sort((a, b) => a.startTicks - b.startTicks);

/** Where a key leads from a stop: along its line, or to the neighbouring line's note nearest in time; null for other keys and at the ends. */
export function stopAfterKey(stops: readonly Stop[], lines: readonly LineId[], from: Stop, key: string): Stop | null {
  switch (key) {
    case 'ArrowRight':
      return stops.find((stop) => stop.line === from.line && stop.startTicks > from.startTicks) ?? null;
    case 'ArrowLeft':
      return stops.findLast((stop) => stop.line === from.line && stop.startTicks < from.startTicks) ?? null;
    case 'ArrowUp':
      return nearest(stops, lines[lines.indexOf(from.line) - 1], from.startTicks);
    case 'ArrowDown':
      return nearest(stops, lines[lines.indexOf(from.line) + 1], from.startTicks);
    case 'Home':
      return stops.find((stop) => stop.line === from.line) ?? null;
    case 'End':
      return stops.findLast((stop) => stop.line === from.line) ?? null;
    default:
      return null;
  }
}

function nearest(stops: readonly Stop[], line: LineId | undefined, ticks: number): Stop | null {
  let found: Stop | null = null;
  for (const stop of stops) {
    if (stop.line !== line) continue;
    if (found === null || Math.abs(stop.startTicks - ticks) < Math.abs(found.startTicks - ticks)) found = stop;
  }
  return found;
}
