import type { SeparateOptions, VoiceNote } from '../../music/split/voice-note.ts';

/** A linear congruential sequence: the same whole numbers in every engine. */
function wholeNumbers(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 4_294_967_296) * below);
  };
}

/** Four wandering lines with rests, crossings and now and then a chord. */
function wanderingNotes(): readonly VoiceNote[] {
  const next = wholeNumbers(20);
  return [74, 67, 60, 50].flatMap((start) => {
    const notes: VoiceNote[] = [];
    let midi = start;
    for (let onsetTicks = 0; onsetTicks < 2400;) {
      const lengthTicks = [6, 12, 12, 24][next(4)]!;
      if (next(6) > 0) notes.push({ onsetTicks, lengthTicks, midi });
      if (next(20) === 0) notes.push({ onsetTicks, lengthTicks, midi: midi + 4 });
      midi = Math.max(start - 9, Math.min(start + 9, midi + next(7) - 3));
      onsetTicks += lengthTicks;
    }
    return notes;
  });
}

/** What is split to see that every engine splits alike: with the count of lines found, given, and with pins. */
export const sameSplits: readonly { readonly notes: readonly VoiceNote[]; readonly options: SeparateOptions }[] = [
  { notes: wanderingNotes(), options: { ticksPerQuarter: 12 } },
  { notes: wanderingNotes(), options: { ticksPerQuarter: 12, lineCount: 3 } },
  {
    notes: wanderingNotes(),
    options: {
      ticksPerQuarter: 12,
      lineCount: 4,
      pins: new Map([
        [40, 2],
        [90, 0],
      ]),
    },
  },
];
