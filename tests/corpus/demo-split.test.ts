import { describe, expect, it } from 'vitest';
import { lineId } from '../../music/basis/ids.ts';
import { readMusicXml } from '../../music/formats/musicxml/read-score.ts';
import { proposeSplit, type ProposeOptions } from '../../music/split/propose-split.ts';
import type { Proposal } from '../../music/split/proposal.ts';
import type { Score } from '../../music/score/score.ts';
import { demoPieces } from '../../seed/demo-pieces.ts';
import { trueMarks } from '../../seed/true-marks.ts';
import { agreementOf } from '../../measure/links.ts';
import { flattened } from '../../measure/registry-scores.ts';

function proposalFor(score: Score, options: Partial<ProposeOptions> = {}): Proposal {
  let made = 0;
  const newLineId = () => lineId(`line-${(made += 1)}`);
  return proposeSplit(score, { pins: new Map(), lines: [], newLineId, ...options });
}

const labels = (score: Score, marks: Pick<Proposal['marks'], 'get'>): readonly string[] =>
  score.notes.map(({ id }) => (marks.get(id)?.lines ?? []).join('+'));

// The truth is the composer’s own rows, which the transcription does not show.
describe.each(demoPieces().map((demo) => [demo.title, demo] as const))('%s', (_, demo) => {
  const bytes = new TextEncoder().encode(demo.musicXml);
  const read = readMusicXml(bytes, { fileName: demo.fileName, firstNoteNumber: 1, firstBarNumber: 1 });
  if (!read.ok) throw new Error(`${demo.fileName} cannot be read`);
  const { score } = read.value;
  const { marks: trueLines } = trueMarks(demo.piece, score);
  const truth = score.notes.map(({ id }) => (trueLines.get(id) ?? []).join('+'));

  it.each([
    ['as it is written', score, 0.99],
    ['all in one voice', flattened(score), 0.975],
  ])('%s, is split into its lines unasked', (_way, given, floor) => {
    const proposal = proposalFor(given);
    expect(proposal.lines).toHaveLength(demo.lines.length);
    expect(agreementOf(score.notes, truth, labels(score, proposal.marks)).f1).toBeGreaterThanOrEqual(floor);
  });

  it('keeps its hits off the pitched lines', () => {
    const { lines, marks } = proposalFor(score);
    const percussion = lines.filter(({ role }) => role === 'percussion').map(({ id }) => id);
    for (const note of score.notes)
      expect(marks.get(note.id)!.lines.some((line) => percussion.includes(line))).toBe(note.sound.kind === 'hit');
  });
});
