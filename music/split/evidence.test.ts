import { describe, expect, it } from 'vitest';
import { separateVoices } from './separate-voices.ts';
import type { VoiceNote } from './voice-note.ts';

/** Two lines that cross in the middle: by pitch alone they seem to bounce. */
const crossing: readonly VoiceNote[] = [67, 65, 64, 62, 60, 59, 57, 55].flatMap((midi, index) => [
  { onsetTicks: index * 4, lengthTicks: 4, midi, sourceVoice: 'one' },
  { onsetTicks: index * 4, lengthTicks: 4, midi: 123 - midi, sourceVoice: 'two' },
]);
const request = { ticksPerQuarter: 4, lineCount: 2 };

describe('evidence from the file', () => {
  it('is left aside where it does not agree with the music', () => {
    const shuffled = crossing.map((note, index) => ({ ...note, sourceVoice: (index * 7) % 5 < 2 ? 'one' : 'two' }));
    const bare = crossing.map((note) => ({ ...note, sourceVoice: undefined }));
    expect(separateVoices(shuffled, request)).toEqual(separateVoices(bare, request));
  });

  it('keeps a melody on its stem through a wide leap', () => {
    const melody = [72, 74, 76, 77, 79, 62, 76, 77, 76, 74, 72, 74];
    const notes: readonly VoiceNote[] = melody.flatMap((midi, index) => [
      { onsetTicks: index * 4, lengthTicks: 4, midi, stem: 'up' as const },
      ...(index === 5
        ? []
        : [{ onsetTicks: index * 4, lengthTicks: 4, midi: index % 2 === 0 ? 60 : 62, stem: 'down' as const }]),
    ]);
    const { labels } = separateVoices(notes, request);
    expect(notes.map(({ stem }, index) => (stem === 'up') === (labels[index] === 0)).every(Boolean)).toBe(true);
  });

  it('follows source voices that make smooth lines, though fewer lines are heard without them', () => {
    const inTurn = (voices: readonly (readonly [name: string, home: number])[], from: number): readonly VoiceNote[] =>
      voices.flatMap(([sourceVoice, home], voice) =>
        [0, 2, 4, 2, 0, -1, 0, 2].map((step, index) => ({
          onsetTicks: from + index * 4 + voice * 2,
          lengthTicks: 4,
          midi: home + step,
          sourceVoice,
        })),
      );
    const notes = [
      ...inTurn(
        [
          ['high', 72],
          ['middle', 62],
        ],
        0,
      ),
      ...inTurn(
        [
          ['middle', 62],
          ['low', 50],
        ],
        40,
      ),
      ...inTurn(
        [
          ['high', 72],
          ['low', 50],
        ],
        80,
      ),
    ];
    const bare = notes.map((note) => ({ ...note, sourceVoice: undefined }));
    expect(separateVoices(bare, { ticksPerQuarter: 4 }).lineCount).toBe(2);
    const { labels } = separateVoices(notes, { ticksPerQuarter: 4 });
    expect(labels.map((label) => ['high', 'middle', 'low'][label])).toEqual(notes.map((note) => note.sourceVoice));
  });
});
