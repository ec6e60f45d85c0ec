import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readScoreFile, timelineOf, type ReadFile } from '../../music/index.ts';
import { anyDocument, unitsPerQuarter, type KnownNote } from '../support/any-document.ts';
import { fixedSeed } from '../support/property-seed.ts';

function read(xml: string): ReadFile {
  const source = { fileName: 'generated.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readScoreFile(new TextEncoder().encode(xml), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join(' '));
  return result.value;
}

const told = ({ onsetUnits, units, midi }: KnownNote): string => `${midi} at ${onsetUnits} for ${units}`;

/** Without a tempo 120 quarter notes are played a minute. */
const unitsIn = (seconds: number): number => Math.round(seconds * 2 * unitsPerQuarter * 1e6) / 1e6;

describe('documents of three voices in any order (MusicXML 4.0, backup, forward, divisions, tie, chord)', () => {
  it('sound as what was put into them, with nothing to tell', () => {
    fc.assert(
      fc.property(anyDocument, ({ xml, barCount, notes }) => {
        const { score, issues } = read(xml);
        const heard = timelineOf(score).notes.map(({ midi, onsetSeconds, lengthSeconds }) =>
          told({ midi: midi ?? 0, onsetUnits: unitsIn(onsetSeconds), units: unitsIn(lengthSeconds) }),
        );
        expect(heard.toSorted()).toEqual(notes.map(told).toSorted());
        expect([score.bars.length, issues]).toEqual([barCount, []]);
      }),
      { seed: fixedSeed, numRuns: 200 },
    );
  });
});
