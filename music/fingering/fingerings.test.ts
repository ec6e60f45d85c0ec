import { describe, expect, it } from 'vitest';
import { tinyScore } from '../../tests/support/tiny-musicxml.ts';
import { readScoreFile } from '../formats/read-score-file.ts';
import type { Score } from '../score/score.ts';
import { fingeringsOf, type Fingering } from './fingerings.ts';

function read(text: string, fileName: string): Score {
  const source = { fileName, firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readScoreFile(new TextEncoder().encode(text), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join('; '));
  return result.value.score;
}

/** Open strings of standard tuning, string 1 first. Common practice, no source. */
const openStrings = [64, 59, 55, 50, 45, 40];
const midiAt = ({ string, fret }: Fingering, capo = 0): number => (openStrings[string - 1] ?? 0) + capo + fret;

describe('where the notes of a score are played', () => {
  it('is proposed for a guitar that is written as notes only: each place sounds the note', () => {
    const score = read(tinyScore(['C4:q E4:q G4:q C5:q | A3:h E3:h', { name: 'Guitar' }]), 'x.musicxml');
    const { value, issues } = fingeringsOf(score);
    expect(issues).toEqual([]);
    expect(value.size).toBe(score.notes.length);
    for (const { id, sound } of score.notes) {
      const place = value.get(id);
      expect(place?.isProposed).toBe(true);
      expect(midiAt(place as Fingering)).toBe(sound.kind === 'pitched' ? sound.soundingMidi : null);
    }
  });

  it('is what a tablature says, not proposed', () => {
    const tab = 'e|-0-1-3---|\nB|---------|\nG|---------|\nD|---------|\nA|---------|\nE|-3-------|\n';
    const score = read(tab, 'x.txt');
    const { value } = fingeringsOf(score);
    expect([...value.values()]).toEqual(score.notes.map(({ fingerboard }) => ({ ...fingerboard, isProposed: false })));
  });

  it('is proposed for a lone voice within a guitar’s range, whatever it is called', () => {
    const tune = (notes: string): string => `X:1\nT:Tune\nM:4/4\nL:1/4\nK:C\n${notes}|]\n`;
    expect(
      [...fingeringsOf(read(tune('C D E F'), 'x.abc')).value.values()].map(({ isProposed }) => isProposed),
    ).toEqual([true, true, true, true]);
    expect(fingeringsOf(read(tune('C,,, D,,, E,,, F,,,'), 'x.abc')).value.size).toBe(0);
  });

  it('is nothing for other instruments beside each other', () => {
    const parts = 'X:1\nT:Two\nM:4/4\nL:1/4\nK:C\nV:1 name="Flute"\nC D E F|]\nV:2 name="Oboe"\nC D E F|]\n';
    expect(fingeringsOf(read(parts, 'x.abc')).value.size).toBe(0);
  });
});
