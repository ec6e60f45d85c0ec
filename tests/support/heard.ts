import { midiOf } from '../../music/basis/pitch.ts';
import type { Score } from '../../music/score/score.ts';
import type { WrittenScore } from '../../music/score/written.ts';

interface Heard {
  readonly quarters: number;
  readonly length: number;
  readonly midi: number | string;
}

const inOrder = (notes: readonly Heard[]): string[] =>
  notes
    .map(({ quarters, length, midi }) => `${quarters.toFixed(4)} ${length.toFixed(4)} ${midi}`)
    .sort((a, b) => a.localeCompare(b));

/** What each staff of a written-out score says: its notes with their ties joined, as they sound. */
export function heardOnStaves({ staves, bars, ticksPerQuarter }: WrittenScore): string[][] {
  const starts = bars.map((_, index) => bars.slice(0, index).reduce((sum, bar) => sum + bar.lengthTicks, 0));
  return staves.map((staff) => {
    const notes = new Map<string, Heard>();
    for (const [index, events] of staff.bars.entries())
      for (const event of events)
        for (const { source, sound } of event.heads) {
          const length = event.lengthTicks / ticksPerQuarter;
          const before = notes.get(source);
          const quarters = before?.quarters ?? ((starts[index] ?? 0) + event.onsetTicks) / ticksPerQuarter;
          const midi = sound.kind === 'pitched' ? midiOf(sound.pitch) : sound.hit;
          notes.set(source, { quarters, length: (before?.length ?? 0) + length, midi });
        }
    return inOrder([...notes.values()]);
  });
}

/** The same of the parts of a score that was read. */
export const heardInParts = ({ parts, notes, ticksPerQuarter }: Score): string[][] =>
  parts.map(({ id }) =>
    inOrder(
      notes
        .filter(({ voices }) => voices.some(({ part }) => part === id))
        .map(({ onsetTicks, lengthTicks, sound }) => ({
          quarters: onsetTicks / ticksPerQuarter,
          length: lengthTicks / ticksPerQuarter,
          midi: sound.kind === 'pitched' ? sound.soundingMidi : sound.hit,
        })),
    ),
  );
