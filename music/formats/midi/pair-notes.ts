import type { TimedEvent } from './open-midi.ts';

/** One note of one channel. **Units** ticks of the file. */
export interface PlayedNote {
  readonly channel: number;
  readonly midi: number;
  readonly velocity: number;
  readonly startTicks: number;
  readonly endTicks: number;
}

/** The notes of a track and what had to be mended to get them. */
export interface PairedNotes {
  readonly notes: readonly PlayedNote[];
  /** Notes that never ended; they sound to the end of their track. */
  readonly unended: number;
  /** Notes that began while the same pitch sounded; the earlier one ends there. */
  readonly overlapped: number;
  /** Notes struck twice at one moment; one is kept. */
  readonly doubled: number;
}

interface OpenNote {
  readonly startTicks: number;
  readonly velocity: number;
}

/** Ends each note where its pitch is struck again, and keeps one of two that begin together. */
function withoutOverlaps(notes: readonly PlayedNote[]): Omit<PairedNotes, 'unended'> {
  const kept: PlayedNote[] = [];
  const lastOf = new Map<number, number>();
  let overlapped = 0;
  let doubled = 0;
  for (const note of [...notes].sort((a, b) => a.startTicks - b.startTicks)) {
    const key = note.channel * 128 + note.midi;
    const place = lastOf.get(key);
    const before = place === undefined ? undefined : kept[place];
    if (place !== undefined && before?.startTicks === note.startTicks) {
      doubled += 1;
      kept[place] = { ...before, endTicks: Math.max(before.endTicks, note.endTicks) };
      continue;
    }
    if (place !== undefined && before !== undefined && before.endTicks > note.startTicks) {
      overlapped += 1;
      kept[place] = { ...before, endTicks: note.startTicks };
    }
    lastOf.set(key, kept.length);
    kept.push(note);
  }
  return { notes: kept, overlapped, doubled };
}

/** The notes of a track: each note-off ends the oldest note of its pitch and channel that still sounds. */
export function pairNotes(track: readonly TimedEvent[]): PairedNotes {
  const open = new Map<number, OpenNote[]>();
  const notes: PlayedNote[] = [];
  const end = (key: number, { startTicks, velocity }: OpenNote, endTicks: number): void => {
    notes.push({ channel: Math.floor(key / 128), midi: key % 128, velocity, startTicks, endTicks });
  };
  for (const { ticks, event } of track) {
    if (event.type !== 'noteOn' && event.type !== 'noteOff') continue;
    const key = event.channel * 128 + event.noteNumber;
    if (event.type === 'noteOn') {
      const struck = { startTicks: ticks, velocity: event.velocity };
      const waiting = open.get(key);
      if (waiting === undefined) open.set(key, [struck]);
      else waiting.push(struck);
    } else {
      const oldest = open.get(key)?.shift();
      if (oldest !== undefined) end(key, oldest, ticks);
    }
  }
  const lastTicks = track.at(-1)?.ticks ?? 0;
  let unended = 0;
  for (const [key, waiting] of open)
    for (const note of waiting) {
      unended += 1;
      end(key, note, lastTicks);
    }
  return { ...withoutOverlaps(notes), unended };
}
