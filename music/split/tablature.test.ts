import { describe, expect, it } from 'vitest';
import { tableOfNotes } from './moments.ts';
import { separateVoices } from './separate-voices.ts';
import { isTablature } from './tablature.ts';
import type { VoiceNote } from './voice-note.ts';

const ticksPerQuarter = 4;
const note = (onsetTicks: number, lengthTicks: number, midi: number): VoiceNote => ({ onsetTicks, lengthTicks, midi });

/** A tune in eighths over a bass that holds for two of them. */
const held = [72, 74, 76, 77, 76, 74, 72, 71].flatMap((midi, index) => [
  note(index * 2, 2, midi),
  ...(index % 2 === 0 ? [note(index * 2, 4, 48 + index)] : []),
]);
const cutOff = held.map(({ onsetTicks, midi }) => note(onsetTicks, 2, midi));

describe('isTablature', () => {
  it.each([
    ['held notes under shorter ones', held, false],
    ['every note cut off by the next', cutOff, true],
    ['held notes that ring', held.map((each) => ({ ...each, letRing: true })), true],
    ['no notes', [], false],
  ])('%s', (_, notes, is) => {
    expect(isTablature(tableOfNotes(notes))).toBe(is);
  });

  it('leaves a bass on its line though every note of it is cut off', () => {
    const { labels, lineCount } = separateVoices(cutOff, { ticksPerQuarter });
    expect(lineCount).toBe(2);
    expect(labels).toEqual(cutOff.map(({ midi }) => (midi < 60 ? 1 : 0)));
  });
});
