import { describe, expect, it } from 'vitest';
import { outsideTheory } from '../../tests/support/outside-theory.ts';
import { line, meter, note, ticksPerQuarter } from '../../tests/support/score-builders.ts';
import { nameOf } from '../basis/pitch.ts';
import type { Tone } from './marks.ts';
import { movedKey, movedNotes } from './moved-notes.ts';
import type { Key } from './signatures.ts';
import { degreeOf, degreeText, keyAt, solfaOf, tonicOf, toneByFifths } from './tonality.ts';

const { Interval, Key: TonalKey, Note } = outsideTheory;

// Key signatures, scales, intervals and transposing by fifths are held against `tonal` from the npm registry.
const allFifths = Array.from({ length: 15 }, (_, index) => index - 7);
const steps = ['C', 'D', 'E', 'F', 'G', 'A', 'B'] as const;
const tones: readonly Tone[] = steps.flatMap((step) => [-2, -1, 0, 1, 2].map((alter) => ({ step, alter })));
const tonalName = ({ step, alter }: Tone): string => step + (alter < 0 ? 'b'.repeat(-alter) : '#'.repeat(alter));
const toneOf = (name: string): Tone => {
  const { letter, alt } = Note.get(name);
  return { step: letter as Tone['step'], alter: alt };
};
const major = (fifths: number): Key => ({ fifths, mode: 'major' });
const minor = (fifths: number): Key => ({ fifths, mode: 'minor' });

describe('tonics', () => {
  it.each(allFifths)('of the signature with %i sharps are those of tonal', (fifths) => {
    const tonic = tonalName(tonicOf(major(fifths)));
    expect(TonalKey.majorKey(tonic).alteration).toBe(fifths);
    expect(tonalName(tonicOf(minor(fifths)))).toBe(TonalKey.majorKey(tonic).minorRelative);
    expect(tonalName(tonicOf({ fifths, mode: null }))).toBe(tonic);
  });
});

describe('degrees', () => {
  it.each(allFifths)('count the scales of the signature with %i sharps from 1 to 7', (fifths) => {
    const degreesIn = (scale: readonly string[], key: Key) =>
      scale.map((name) => degreeText(degreeOf(toneOf(name), key)));
    const ownMajor = TonalKey.majorKey(tonalName(tonicOf(major(fifths))));
    const ownMinor = TonalKey.minorKey(tonalName(tonicOf(minor(fifths))));
    const plain = ['1', '2', '3', '4', '5', '6', '7'];
    expect(degreesIn(ownMajor.scale, major(fifths))).toEqual(plain);
    expect(degreesIn(ownMinor.natural.scale, minor(fifths))).toEqual(plain);
    expect(degreesIn(ownMinor.harmonic.scale, minor(fifths))).toEqual([...plain.slice(0, 6), '♯7']);
    expect(degreesIn(ownMinor.melodic.scale, minor(fifths))).toEqual([...plain.slice(0, 5), '♯6', '♯7']);
  });

  it('are the intervals above the tonic in every major key, with their alteration from the major one', () => {
    const intervals = '1P 1A 2m 2M 2A 3d 3m 3M 4d 4P 4A 5d 5P 5A 6d 6m 6M 6A 7d 7m 7M'.split(' ');
    for (const fifths of allFifths)
      for (const interval of intervals) {
        const tone = toneOf(Note.transpose(tonalName(tonicOf(major(fifths))), interval));
        const { num, alt } = Interval.get(interval);
        expect(degreeOf(tone, major(fifths))).toEqual({ degree: num, alter: alt });
      }
  });
});

describe('solfa', () => {
  it.each(allFifths)('sings the scales of the signature with %i sharps: do in major, la in minor', (fifths) => {
    const sung = (scale: readonly string[], key: Key) => scale.map((name) => solfaOf(toneOf(name), key)).join(' ');
    const ownMajor = TonalKey.majorKey(tonalName(tonicOf(major(fifths))));
    const ownMinor = TonalKey.minorKey(tonalName(tonicOf(minor(fifths))));
    expect(sung(ownMajor.scale, major(fifths))).toBe('do re mi fa sol la ti');
    expect(sung(ownMinor.natural.scale, minor(fifths))).toBe('la ti do re mi fa sol');
    expect(sung(ownMinor.harmonic.scale, minor(fifths))).toBe('la ti do re mi fa si');
  });

  // Chromatic syllables: common practice, no source.
  it('has syllables for raised and lowered degrees, and signs where it has none', () => {
    const sung = (names: string) => names.split(' ').map((name) => solfaOf(toneOf(name), major(0)));
    expect(sung('C# D# F# G# A#')).toEqual(['di', 'ri', 'fi', 'si', 'li']);
    expect(sung('Db Eb Gb Ab Bb')).toEqual(['ra', 'me', 'se', 'le', 'te']);
    expect(sung('E# Cb F##')).toEqual(['mi♯', 'do♭', 'fa𝄪']);
  });
});

describe('the key at a moment', () => {
  it('is its bar’s, until it changes within the bar', () => {
    const bars = line(
      [
        { meter: meter(4, 4), key: major(1) },
        { meter: meter(4, 4), key: major(-2) },
      ],
      note('C4', 4),
      note('C4', 4),
    ).bars;
    const score = { bars, keyChanges: [{ onsetTicks: 2 * ticksPerQuarter, key: minor(-2) }] };
    expect([0, 2, 3, 4].map((quarters) => keyAt(score, quarters * ticksPerQuarter))).toEqual([
      major(1),
      minor(-2),
      minor(-2),
      major(-2),
    ]);
    expect(keyAt({ bars: [], keyChanges: [] }, 0)).toEqual({ fifths: 0, mode: null });
  });
});

describe('moving', () => {
  it('goes by fifths as tonal does', () => {
    for (const tone of tones)
      for (const fifths of allFifths)
        expect(tonalName(toneByFifths(tone, fifths))).toBe(Note.transposeFifths(tonalName(tone), fifths));
  });

  it('finds the key so many semitones away, with six signs at most', () => {
    for (const fifths of allFifths)
      for (let semitones = -11; semitones <= 11; semitones += 1) {
        const moved = movedKey(major(fifths), semitones);
        const chroma = (key: Key) => Note.chroma(tonalName(tonicOf(key)));
        expect(chroma(moved)).toBe((chroma(major(fifths)) + semitones + 24) % 12);
        if (semitones !== 0) expect(Math.abs(moved.fifths)).toBeLessThanOrEqual(6);
      }
  });

  it('keeps every note’s degree, and moves its pitch by just as much', () => {
    const notes = ['E4', 'F#4', 'G4', 'Bb4', 'D#5', 'C4'].map((name) => note(name, 1));
    const score = line([{ meter: meter(4, 4), key: minor(1) }], ...notes);
    for (const semitones of [-6, -3, -1, 1, 2, 5]) {
      const moved = { ...score, ...movedNotes(score, semitones) };
      const told = (of: typeof score) =>
        of.notes.map(({ sound, onsetTicks }) =>
          sound.kind === 'hit' ? null : degreeText(degreeOf(sound.sounding, keyAt(of, onsetTicks))),
        );
      expect(told(moved)).toEqual(told(score));
      const midis = (of: typeof score) =>
        of.notes.map(({ sound }) => {
          if (sound.kind === 'hit') throw new Error('none were hit');
          expect(Note.midi(tonalName(sound.sounding) + String(sound.sounding.octave))).toBe(sound.soundingMidi);
          return sound.soundingMidi;
        });
      expect(midis(moved)).toEqual(midis(score).map((midi) => midi + semitones));
    }
  });

  it('gives the third of E minor the name of the third of C♯ minor three semitones down', () => {
    const score = line([{ meter: meter(4, 4), key: minor(1) }], note('G4', 4));
    const [moved] = movedNotes(score, -3).notes;
    expect(moved?.sound.kind === 'pitched' && nameOf(moved.sound.sounding)).toBe('E');
  });
});
