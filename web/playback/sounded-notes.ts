import type { Audition, NoteId, SoundEvent } from '../../music/index.ts';

/** How far apart notes are spread so that each can be told, and struck together as by one stroke. **Units** seconds. From memory, no source. */
const spreadSeconds = 0.24;
const strokeSeconds = 0.008;

const [shortestSeconds, longestSeconds] = [0.4, 1.6];
const softestStrength = 0.5;

/** Hits before pitches, low before high: as a thumb goes through the strings. */
const heightOf = ({ voice }: SoundEvent): number => (voice.kind === 'pitched' ? voice.midi : -1);

/** What a note comes to, on the line that plays it first: an ornament ends with the note itself. */
function eventOf(events: readonly SoundEvent[], note: NoteId): SoundEvent | undefined {
  const first = events.find((event) => event.note === note);
  return events.findLast((event) => event.note === note && event.line === first?.line);
}

/** Notes of a performance as sounds to be tried: at one stroke, or from low to high one after the other. A note on two lines sounds once. */
export function notesSounded(
  events: readonly SoundEvent[],
  notes: readonly NoteId[],
  manner: 'stroke' | 'spread',
): readonly Audition[] {
  const gapSeconds = manner === 'spread' ? spreadSeconds : strokeSeconds;
  return notes
    .flatMap((note) => eventOf(events, note) ?? [])
    .sort((a, b) => heightOf(a) - heightOf(b))
    .map((event, index) => ({
      voice: event.voice,
      glide: event.glide,
      strength: Math.max(softestStrength, event.strength),
      seconds: Math.min(longestSeconds, Math.max(shortestSeconds, event.ringSeconds)),
      afterSeconds: index * gapSeconds,
    }));
}
