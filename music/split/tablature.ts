import type { NoteTable } from './moments.ts';

/** A piece is in tablature rhythm where this share of its notes ends just where the next moment begins. */
const cutShare = 0.95;

/** Whether written lengths tell nothing: nearly every note rings on, or is cut off by the next onset in any voice, as tablature writes them. */
export function isTablature(table: NoteTable): boolean {
  let cut = 0;
  const last = table.momentStart[table.momentCount - 1] ?? 0;
  for (let moment = 0; moment + 1 < table.momentCount; moment++) {
    const next = table.momentStart[moment + 1] as number;
    for (let note = table.momentStart[moment] as number; note < next; note++)
      if (table.heardUntil[note] === table.onset[next]) cut++;
  }
  return last > 0 && cut >= cutShare * last;
}
