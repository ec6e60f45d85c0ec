import { parseAbc } from 'musicxml-io';
import { describe, expect, it } from 'vitest';
import { readScoreFile, type Score } from '../../music/index.ts';

interface HeardNote {
  readonly quarters: number;
  readonly length: number;
  readonly pitch: string;
}

const sorted = (notes: readonly HeardNote[]): string[] =>
  notes
    .map(({ quarters, length, pitch }) => `${quarters.toFixed(3)} ${length.toFixed(3)} ${pitch}`)
    .sort((a, b) => a.localeCompare(b));

function ours(text: string): string[] {
  const read = readScoreFile(new TextEncoder().encode(text), {
    fileName: 'tune.abc',
    firstNoteNumber: 1,
    firstBarNumber: 1,
  });
  if (!read.ok) throw new Error(read.refusal.map(({ detail }) => detail).join(' '));
  const score: Score = read.value.score;
  return sorted(
    score.notes.map(({ onsetTicks, lengthTicks, sound }) => ({
      quarters: onsetTicks / score.ticksPerQuarter,
      length: lengthTicks / score.ticksPerQuarter,
      pitch: sound.kind === 'hit' ? sound.hit : `${sound.written.step}${sound.written.alter}/${sound.written.octave}`,
    })),
  );
}

/** The registry library `musicxml-io` 0.9.6 (MIT) reads the same text; 960 of its units are a quarter. Ties are joined here. */
function theirs(text: string): string[] {
  const heard: HeardNote[] = [];
  for (const part of parseAbc(text).parts) {
    let barStart = 0;
    const open = new Map<string, number>();
    for (const { entries } of part.measures) {
      let at = barStart;
      let onset = barStart;
      let furthest = barStart;
      for (const entry of entries) {
        if (entry.type === 'backup') at -= entry.duration / 960;
        if (entry.type === 'forward') at += entry.duration / 960;
        if (entry.type !== 'note' || entry.grace !== undefined) continue;
        const duration = entry.duration / 960;
        if (entry.chord !== true) {
          onset = at;
          at += duration;
        }
        furthest = Math.max(furthest, at);
        const { pitch: written } = entry;
        if (written === undefined) continue;
        const pitch = `${written.step}${written.alter ?? 0}/${written.octave}`;
        const ties = (entry.ties ?? []).map(({ type }) => type);
        const from = ties.includes('stop') ? open.get(pitch) : undefined;
        const last = from === undefined ? undefined : heard[from];
        const index = from ?? heard.length;
        heard[index] = { quarters: last?.quarters ?? onset, length: (last?.length ?? 0) + duration, pitch };
        if (ties.includes('start')) open.set(pitch, index);
        else open.delete(pitch);
      }
      barStart = furthest;
    }
  }
  return sorted(heard);
}

const tune = (body: string, header = 'M:4/4\nL:1/4\nK:C'): string => `X:1\nT:Made\n${header}\n${body}\n`;

describe('ABC beside a second reader', () => {
  it.each([
    ['octaves and lengths', tune("C, C c c' | D/ D2 E3/2 | F// G/4 A// B//z3 |")],
    ['accidentals', tune('^C _D =E ^^F | __G A B c |')],
    ['broken rhythm', tune('A>B A<B | c>>d e<f |')],
    ['a triplet and a quintuplet', tune('(3ABc d2 | (5:4:5ABcde |')],
    ['chords and ties', tune('[CEG]2 [C2-E2-] | [CE]2 A B | c- c2 d |')],
    ['the length that a meter implies', tune('CDEF GABc|', 'M:4/4\nK:C')],
    ['sixteenths by L:', tune('C2D2E2F2 G2A2B2c2|', 'M:2/4\nL:1/16\nK:C')],
    ['rests', tune('C z D2 | z4 | x2 E2 |')],
    ['grace notes, slurs, decorations and repeats', tune('|: {d}c2 (A B) | .C !f!D "Am"E ~F :|')],
    ['a line of symbols', tune('C D E F | G4 |\ns: "Am" * !f! * | "C"')],
    ['words', tune('C D E F |\nw: one two three four')],
  ])('reads the same notes: %s', (_, text) => expect(ours(text)).toEqual(theirs(text)));

  // Where the second reader counts otherwise than ABC 2.1 says (from memory).
  it.each([
    ['leaves the key out of a note’s pitch', tune('F C2 G|', 'M:4/4\nL:1/4\nK:D')],
    ['forgets an accidental before its bar ends', tune('^F F2 G|')],
    ['ties one note of a tied chord', tune('[CE]4- | [CE]4 |')],
    ['knows no macros', tune('~G3 A|', 'M:4/4\nL:1/4\nm: ~G3 = GAG\nK:C')],
    ['does not follow the order of parts', tune('P:A\nC4|\nP:B\nD4|', 'P:ABA\nM:4/4\nL:1/4\nK:C')],
  ])('differs, since that one %s', (_, text) => expect(ours(text)).not.toEqual(theirs(text)));
});
