import { describe, expect, it } from 'vitest';
import { fitWords, moveWords, pitchWords } from './singing-words.ts';

describe('words about singing', () => {
  it('say what is moved', () => {
    expect(moveWords({ octaves: 0, semitones: 0 })).toBeNull();
    expect(moveWords({ octaves: 0, semitones: -3 })).toBe('Everything sounds three semitones lower, for singing only.');
    expect(moveWords({ octaves: -1, semitones: 0 })).toBe('The hum sounds an octave lower, for singing only.');
    expect(moveWords({ octaves: -2, semitones: 1 })).toBe(
      'Everything sounds a semitone higher, and the hum two octaves lower besides, for singing only.',
    );
  });

  it('say whether it fits', () => {
    expect(fitWords({ beyondSemitones: 0 })).toContain('within your voice');
    expect(fitWords({ beyondSemitones: 2 })).toContain('two semitones beyond');
  });

  it('name pitches with their octaves', () => {
    expect([36, 60, 66].map(pitchWords)).toEqual(['C2', 'C4', 'F♯4']);
  });
});
