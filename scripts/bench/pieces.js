// Music for the bench, made by rule: four voices that wander in their own registers.
import { wholeNumbers } from '../../dist/measure/numbers.js';

const registers = [72, 64, 57, 45];
const scale = [0, 2, 4, 5, 7, 9, 11];

/** `count` notes of four voices, 12 ticks to the quarter, in reading order. **Shape** `{ onsetTicks, lengthTicks, midi }`. */
export function wanderingVoices(count, seed = 7) {
  const next = wholeNumbers(seed);
  const perVoice = Math.ceil(count / registers.length);
  const notes = registers.flatMap((home) => {
    let onsetTicks = 0;
    let degree = 0;
    return Array.from({ length: perVoice }, () => {
      const lengthTicks = [6, 6, 12, 12, 24][next(5)];
      degree = Math.max(-4, Math.min(4, degree + next(3) - 1));
      const midi = home + scale[(degree + 7) % 7] - (degree < 0 ? 12 : 0);
      const note = { onsetTicks, lengthTicks, midi };
      onsetTicks += lengthTicks + (next(8) === 0 ? 12 : 0);
      return note;
    });
  });
  return notes.sort((a, b) => a.onsetTicks - b.onsetTicks || b.midi - a.midi).slice(0, count);
}
