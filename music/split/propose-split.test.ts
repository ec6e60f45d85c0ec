import { describe, expect, it } from 'vitest';
import { chord, hit, line, meter, note, rest, voices } from '../../tests/support/score-builders.ts';
import { lineNamed } from '../../tests/support/split-builders.ts';
import { lineId, noteId, type NoteId } from '../basis/ids.ts';
import { emptySplit, type Mark } from '../operations/split.ts';
import type { Score } from '../score/score.ts';
import { proposalOperation } from './proposal.ts';
import { proposeSplit, type ProposeOptions } from './propose-split.ts';

function options(more: Partial<ProposeOptions> = {}): ProposeOptions {
  let made = 0;
  return { pins: new Map(), lines: [], newLineId: () => lineId(`L${(made += 1)}`), ...more };
}

const melodyOverBass = (): Score =>
  voices(
    meter(4, 4),
    [note('E4', 1), note('F4', 1), note('G4', 1), note('A4', 1), note('G4', 2), note('E4', 2)],
    [note('C3', 2), note('G2', 2), note('C3', 2), note('C3', 2)],
  );

/** One readable word per note: `n1:M`. */
function written(score: Score, more: Partial<ProposeOptions> = {}): string {
  const proposal = proposeSplit(score, options(more));
  const letterOf = new Map(proposal.lines.map((made) => [made.id, made.letter]));
  return score.notes
    .map(({ id }) => `${id}:${(proposal.marks.get(id)?.lines ?? []).map((made) => letterOf.get(made)).join('+')}`)
    .join(' ');
}

describe('proposeSplit', () => {
  it('splits a tune from its bass and names both', () => {
    expect(written(melodyOverBass())).toBe('n1:M n2:B n3:M n4:M n5:B n6:M n7:M n8:B n9:M n10:B');
    const { lines } = proposeSplit(melodyOverBass(), options());
    expect(lines.map(({ name, dye, letter }) => `${name} ${dye} ${letter}`)).toEqual([
      'Melody madder M',
      'Bass indigo B',
    ]);
    expect(lines[0]!.orderKey < lines[1]!.orderKey).toBe(true);
  });

  it('puts hits on a line of their own, but an x within a strum with the strum', () => {
    const score = voices(
      meter(4, 4),
      [note('E4', 1), note('F4', 1), chord(['C4', 'E4', 'G4'], 1), note('E4', 1)],
      [rest(1), hit(1), hit(1, 'deadNote'), hit(1)],
    );
    const proposal = proposeSplit(score, options());
    const percussion = proposal.lines.find(({ role }) => role === 'percussion')!;
    const hits = score.notes.filter(({ sound }) => sound.kind === 'hit').map(({ id }) => proposal.marks.get(id)!);
    expect(hits.map(({ lines }) => lines.includes(percussion.id))).toEqual([true, false, true]);
    expect(hits[1]!.confidence).toBeLessThan(0.5);
    expect(proposal.lines.at(-1)).toBe(percussion);
  });

  it('puts a double-stemmed unison on two lines', () => {
    const plain = melodyOverBass();
    const second = { ...plain.notes[0]!.voices[0]!, voice: '2', stem: 'down' as const };
    const notes = plain.notes.map((each, index) =>
      index === 9 ? { ...each, voices: [...each.voices, second] } : each,
    );
    const withUnison = { ...plain, notes: notes.filter((_, index) => index !== 8) };
    expect(proposeSplit(withUnison, options()).marks.get(noteId('n10'))?.lines).toHaveLength(2);
  });

  it('never overrides a pin and keeps the line that a person uses', () => {
    const melody = lineNamed('melody', 0);
    const bass = lineNamed('bass', 1);
    const pins = new Map([
      [noteId('n3'), [bass.id]],
      [noteId('n1'), [melody.id]],
      [noteId('n2'), []],
    ]);
    const proposal = proposeSplit(melodyOverBass(), options({ pins, lines: [melody, bass] }));
    for (const [pinned, lines] of pins) expect(proposal.marks.get(pinned)?.lines).toEqual(lines);
    expect(proposal.lines).toEqual([melody, bass]);
  });

  it('lets every line go on as itself when a single correction goes against the music', () => {
    const score = melodyOverBass();
    const first = proposeSplit(score, options());
    const [melody, bass] = first.lines;
    const present = new Map([...first.marks].map(([id, mark]) => [id, mark.lines]));
    const odd = score.notes.find(({ id }) => present.get(id)?.[0] === melody!.id)!.id;
    const pins = new Map([[odd, [bass!.id]]]);
    const again = proposeSplit(score, options({ pins, present: new Map([...present, ...pins]), lines: first.lines }));
    expect(again.lines).toEqual(first.lines);
    const stayed = [...present].filter(([id, lines]) => again.marks.get(id)?.lines.join() === lines.join());
    expect(stayed.length).toBeGreaterThanOrEqual(present.size - 3);
  });

  it('makes one proposal of the same input, with as many lines as asked for', () => {
    const score = voices(meter(4, 4), [chord(['C3', 'E4', 'G4'], 4), chord(['B2', 'D4', 'G4'], 4)]);
    const [first, second] = [options({ lineCount: 3 }), options({ lineCount: 3 })].map((each) =>
      proposeSplit(score, each),
    );
    expect(first).toEqual(second);
    expect(first!.lines).toHaveLength(3);
  });

  it('keeps pins on more lines than it can tell apart', () => {
    const names = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i', 'j'];
    const score = melodyOverBass();
    const pins = new Map(score.notes.map(({ id }, index) => [id, [lineId(names[index]!)]]));
    const { marks } = proposeSplit(score, options({ pins, lines: names.map(lineNamed) }));
    expect([...pins].every(([id, lines]) => marks.get(id)?.lines.join() === lines.join())).toBe(true);
  });

  it('answers to scores without notes and with one', () => {
    expect(proposeSplit(line(meter(4, 4), rest(4)), options())).toEqual({ lines: [], marks: new Map(), reasons: [] });
    expect(written(line(meter(4, 4), note('C4', 4)))).toBe('n1:M');
  });
});

describe('proposalOperation', () => {
  it('lists only what changes and leaves pins alone', () => {
    const score = melodyOverBass();
    const proposal = proposeSplit(score, options());
    const first = proposalOperation(emptySplit, proposal);
    expect(first).toMatchObject({ kind: 'acceptProposal', lines: proposal.lines });
    const marks = new Map<NoteId, Mark>(
      [...proposal.marks].map(([id, mark]) => [id, { ...mark, from: 'proposal' as const, revision: 1 }]),
    );
    marks.set(noteId('n1'), { lines: [], confidence: 0, from: 'proposal', revision: 1 });
    const pinned = { lines: [], confidence: null, from: 'person' as const, revision: 1 };
    const split = { revision: 1, lines: proposal.lines, marks: new Map([...marks, [noteId('n2'), pinned]]) };
    const second = proposalOperation(split, proposal);
    expect(second).toMatchObject({ lines: [], changes: [{ note: 'n1', before: { lines: [] } }] });
  });
});
