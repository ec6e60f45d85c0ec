import type { Key, Pitch } from '../../music/index.ts';
import type { PieceNote } from '../form/piece.ts';
import type { VoiceEvent } from './voice-events.ts';

const sharpOrder = 'FCGDAEB';
const words: Readonly<Record<number, string>> = {
  [-2]: 'flat-flat',
  [-1]: 'flat',
  0: 'natural',
  1: 'sharp',
  2: 'double-sharp',
};

function alterInKey(step: Pitch['step'], key: Key): number {
  const place = sharpOrder.indexOf(step);
  if (key.fifths > 0) return place < key.fifths ? 1 : 0;
  return 6 - place < -key.fifths ? -1 : 0;
}

/** Names one head of one event, so that the accidentals found for it can be looked up. */
export type HeadKey = `${number}:${string}:${number}`;

export const headKey = (event: VoiceEvent, note: PieceNote): HeadKey =>
  `${event.onsetTicks}:${note.letter}:${note.string}`;

/** The accidentals that a bar of one staff shows: an accidental holds for its own octave until the bar ends. */
export function accidentalsOf(events: readonly VoiceEvent[], key: Key): ReadonlyMap<HeadKey, string> {
  const inForce = new Map<string, number>();
  const shown = new Map<HeadKey, string>();
  for (const event of [...events].sort((a, b) => a.onsetTicks - b.onsetTicks))
    for (const note of event.notes) {
      if (note.sound.kind !== 'pitched') continue;
      const { step, alter, octave } = note.sound.pitch;
      const place = `${step}${octave}`;
      const present = inForce.get(place) ?? alterInKey(step, key);
      if (present === alter || event.isTiedFromBefore) continue;
      shown.set(headKey(event, note), words[alter] ?? 'natural');
      inForce.set(place, alter);
    }
  return shown;
}
