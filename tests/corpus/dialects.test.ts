import { describe, expect, it } from 'vitest';
import { demoPieces } from '../../seed/demo-pieces.ts';
import { readMusicXml, type ReadScore } from '../../music/formats/musicxml/read-score.ts';
import type { Score, SoundingNote } from '../../music/score/score.ts';
import { dialectsOf } from '../support/dialects.ts';

function readBytes(bytes: Uint8Array): ReadScore {
  const read = readMusicXml(bytes, { fileName: 'dialect', firstNoteNumber: 1, firstBarNumber: 1 });
  if (!read.ok) throw new Error(JSON.stringify(read.refusal));
  return read.value;
}

/** Each pluck as its onset and what sounds, and how long where that is kept. */
function plucksOf(score: Score, raisedSemitones: number, keepsLengths: boolean): string[] {
  const pluck = ({ onsetTicks, lengthTicks, sound }: SoundingNote): string =>
    [
      onsetTicks / score.ticksPerQuarter,
      sound.kind === 'pitched' ? sound.soundingMidi + raisedSemitones : 'hit',
      keepsLengths ? lengthTicks / score.ticksPerQuarter : '',
    ].join(' ');
  return score.notes.map(pluck).toSorted();
}

describe.each(demoPieces().map(({ title, musicXml, piece }) => [title, musicXml, piece] as const))(
  '%s',
  (_, musicXml, piece) => {
    const original = readBytes(new TextEncoder().encode(musicXml)).score;

    it('is read as its own text says it', () => {
      const wanted = new Set(
        piece.notes.map(
          ({ onsetTicks, sound }) => `${onsetTicks / 24} ${sound.kind === 'pitched' ? sound.midi : 'hit'} `,
        ),
      );
      expect(new Set(plucksOf(original, 0, false))).toEqual(wanted);
    });

    it.each(dialectsOf(musicXml).map((dialect) => [dialect.name, dialect] as const))(
      'is the same music with %s',
      (_name, dialect) => {
        const { score } = readBytes(dialect.bytes);
        const { raisedSemitones, keepsLengths } = dialect;
        expect(plucksOf(score, 0, keepsLengths)).toEqual(plucksOf(original, raisedSemitones, keepsLengths));
      },
    );
  },
);
