import type { PlayedNote } from './played-notes.ts';

/** How uneven a playing is. **Units** `amount` 0 to 1, where 1 is a steady player's. */
export interface Human {
  readonly seed: number;
  readonly amount: number;
}

/** How late what is struck together may be, how late one note of it, and how much harder or softer a note may be played. From memory, no source. */
const togetherSeconds = 0.008;
const aloneSeconds = 0.004;
const strengthSpread = 0.05;

/** Stirs a number into a hash of 32 bits. */
function stirred(hash: number, value: number): number {
  let mixed = Math.imul(hash ^ value, 0x9e3779b1);
  mixed = Math.imul(mixed ^ (mixed >>> 15), 0x85ebca6b);
  return (mixed ^ (mixed >>> 13)) >>> 0;
}

const stirredText = (hash: number, text: string): number =>
  Array.from(text).reduce((mixed, letter) => stirred(mixed, letter.codePointAt(0) ?? 0), hash);

const shareOf = (hash: number): number => stirred(hash, 0x5bd1e995) / 0x1_0000_0000;

/** Between 0 and 1, most often about the middle. */
const middling = (hash: number): number =>
  (shareOf(stirred(hash, 1)) + shareOf(stirred(hash, 2)) + shareOf(stirred(hash, 3))) / 3;

const spreadSigns = ['arpeggio', 'arpeggioDown', 'strumDown', 'strumUp'] as const;

/** Grace notes and the notes of spread chords keep their distance from each other. */
const keepsDistance = ({ isGrace, main }: PlayedNote): boolean =>
  isGrace || spreadSigns.some((sign) => main.techniques.includes(sign));

/**
 * The notes as a person plays them: each a little late, what is struck together nearly together, and a little harder or
 * softer. Never early, so that a note of a bar is not lost to whoever begins there. It hangs on the seed, the note and
 * which playing it is, and on nothing else.
 */
export function uneven(notes: readonly PlayedNote[], playing: number, { seed, amount }: Human): readonly PlayedNote[] {
  const share = Math.min(1, Math.max(0, amount));
  const start = stirred(stirred(0x811c9dc5, Math.floor(seed)), playing);
  return notes.map((note) => {
    const own = stirredText(start, note.id);
    const together = togetherSeconds * middling(stirred(start, note.onsetTicks));
    const lateSeconds = share * (together + (keepsDistance(note) ? 0 : aloneSeconds * middling(own)));
    return {
      ...note,
      onsetSeconds: note.onsetSeconds + lateSeconds,
      addedStrength: share * strengthSpread * (2 * middling(stirred(own, 4)) - 1),
    };
  });
}
