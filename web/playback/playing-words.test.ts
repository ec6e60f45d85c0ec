import { describe, expect, it } from 'vitest';
import { clickNamed, clickNameOf, clickNames, playingSummary } from './playing-words.ts';
import { untouchedPlayer } from './player-snapshot.ts';

describe('how it plays, in words', () => {
  it('says nothing of what nobody touched', () => {
    expect(playingSummary(untouchedPlayer, null)).toBeNull();
    expect(playingSummary(untouchedPlayer, true)).toBeNull();
  });

  it('says what is otherwise', () => {
    const touched = { click: { isOn: true, subdivision: 3 }, countInBars: 2, volumeDb: -6 } as const;
    expect(playingSummary(touched, false)).toBe('two bars counted in, click on thirds, no repeats, 6 dB softer');
    expect(playingSummary({ ...untouchedPlayer, countInBars: 1, volumeDb: 3 }, null)).toBe(
      'a bar counted in, 3 dB louder',
    );
  });

  it('knows every click by its name, and how fine it was while it is off', () => {
    const fine = { isOn: true, subdivision: 4 } as const;
    for (const { value } of clickNames) expect(clickNameOf(clickNamed(value, fine))).toBe(value);
    expect(clickNamed('off', fine)).toEqual({ isOn: false, subdivision: 4 });
  });
});
