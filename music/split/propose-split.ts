import type { LineId, NoteId } from '../basis/ids.ts';
import type { Line } from '../operations/split.ts';
import type { Score, SoundingNote } from '../score/score.ts';
import { evidencedNotes, type EvidencedNote } from './guitar-evidence.ts';
import { sortHits, type HitsFound } from './hits.ts';
import { labelledSplit, type LabelledSplit } from './line-labels.ts';
import { allLines, madeLines, type NeededLine } from './proposal-lines.ts';
import type { LineReason, Proposal, ProposedMark } from './proposal.ts';
import { readVoices, type Reading } from './reading.ts';
import { characterOf, rolesOf, type RoleFound } from './roles.ts';
import { separationOf } from './separate-voices.ts';
import type { Separation } from './voice-note.ts';

/** What a proposal starts from beside the score. */
export interface ProposeOptions {
  /** How many pitched lines to propose; found from the music where absent. The percussion line is not counted. */
  readonly lineCount?: number | undefined;
  /** The lines that people have put notes on; none of them is overridden. */
  readonly pins: ReadonlyMap<NoteId, readonly LineId[]>;
  /** The lines that notes are on now, by whomever. Beside pins they stay where nothing speaks against them; without pins they only tell which voice of the music goes on as which line. */
  readonly present?: ReadonlyMap<NoteId, readonly LineId[]> | undefined;
  /** The lines that the split has now, retired ones included; they are used again where they fit. */
  readonly lines: readonly Line[];
  readonly newLineId: () => LineId;
}

/** Proposes splits of one score again and again; what the music says without any marks is found out once. */
export interface SplitProposer {
  readonly propose: (options: ProposeOptions) => Proposal;
}

const strumConfidence = 0.4;

function pitchedLinesInUse({ lines, pins, present }: ProposeOptions): readonly LineId[] {
  const pinned = new Set([...pins.values()].flat());
  const used = new Set([...(present?.values() ?? [])].flat());
  return lines
    .filter(({ id, role, isRetired }) => role !== 'percussion' && (pinned.has(id) || (used.has(id) && !isRetired)))
    .map(({ id }) => id);
}

/** The labels that notes have, from the highest line down. */
function labelsInUse({ labels, order }: Separation): readonly number[] {
  const used = new Set(labels);
  return order.filter((label) => used.has(label));
}

/** Lines for the labels in use: their own, else one of the same role that nothing is on yet. */
function neededLines(
  labels: readonly number[],
  roles: readonly RoleFound[],
  { labelOfLine }: LabelledSplit,
  options: ProposeOptions,
): readonly NeededLine[] {
  const used = new Set(labelOfLine.keys());
  const lineOfLabel = new Map([...labelOfLine].map(([line, label]) => [label, line]));
  return roles.map(({ role }, place): NeededLine => {
    const own = lineOfLabel.get(labels[place] as number);
    const line = options.lines.find((known) =>
      own === undefined ? !known.isRetired && known.role === role && !used.has(known.id) : known.id === own,
    );
    if (line === undefined) return { kind: 'new', role };
    used.add(line.id);
    return { kind: 'existing', line };
  });
}

function percussionNeed(percussion: readonly SoundingNote[], options: ProposeOptions): readonly NeededLine[] {
  if (percussion.every((hit) => options.pins.has(hit.id))) return [];
  const line = options.lines.find((known) => !known.isRetired && known.role === 'percussion');
  return [line === undefined ? { kind: 'new', role: 'percussion' } : { kind: 'existing', line }];
}

function pitchedMarks(
  copies: readonly EvidencedNote[],
  { labels, confidences }: Separation,
  lineOfLabel: ReadonlyMap<number, Line>,
): Map<NoteId, ProposedMark> {
  const marks = new Map<NoteId, ProposedMark>();
  copies.forEach(({ source }, index) => {
    const line = lineOfLabel.get(labels[index] as number) as Line;
    const before = marks.get(source.id);
    const together = [...new Set([...(before?.lines ?? []), line.id])].sort();
    marks.set(source.id, {
      lines: together,
      confidence: Math.min(before?.confidence ?? 1, confidences[index] as number),
    });
  });
  return marks;
}

function markHits(
  marks: Map<NoteId, ProposedMark>,
  { percussion, withStrum }: HitsFound,
  line: Line | undefined,
  pins: ProposeOptions['pins'],
): void {
  for (const { id, sound } of line === undefined ? [] : percussion)
    marks.set(id, {
      lines: [(line as Line).id],
      confidence: sound.kind === 'hit' && sound.isCertain ? 1 : strumConfidence,
    });
  for (const [hit, companion] of withStrum)
    marks.set(hit.id, {
      lines: (pins.get(companion.id) ?? marks.get(companion.id)?.lines ?? []).slice(0, 1),
      confidence: strumConfidence,
    });
}

function proposalFrom(
  score: Score,
  copies: readonly EvidencedNote[],
  hits: HitsFound,
  separation: Separation,
  labelled: LabelledSplit,
  options: ProposeOptions,
): Proposal {
  const labels = labelsInUse(separation);
  const notesOf = (label: number) =>
    copies.filter((_, index) => separation.labels[index] === label).map(({ note }) => note);
  const roles = rolesOf(labels.map((label) => characterOf(notesOf(label))));
  const needs = [...neededLines(labels, roles, labelled, options), ...percussionNeed(hits.percussion, options)];
  const made = madeLines(needs, options.lines, options.newLineId);
  const lineOfLabel = new Map(labels.map((label, place) => [label, made[place] as Line]));
  const marks = pitchedMarks(copies, separation, lineOfLabel);
  markHits(marks, hits, made[labels.length], options.pins);
  for (const { id } of score.notes) {
    const pin = options.pins.get(id);
    if (pin !== undefined) marks.set(id, { lines: [...pin].sort(), confidence: 1 });
  }
  const reasons = roles.map(({ reason }, place): LineReason => ({ line: (made[place] as Line).id, reason }));
  return { lines: allLines(options.lines, made), marks, reasons };
}

/** A proposer of a score: hits go to the percussion line, the rest as `separateVoices` tells, every pinned note where its person put it. The same score and options give the same proposal. */
export function splitProposer(score: Score): SplitProposer {
  const copies = evidencedNotes(score);
  const hits = sortHits(score);
  const notes = copies.map(({ note }) => note);
  const readings = new Map<number | undefined, Reading>();
  const readingFor = (lineCount: number | undefined): Reading => {
    const known = readings.get(lineCount) ?? readVoices(notes, { ticksPerQuarter: score.ticksPerQuarter, lineCount });
    readings.set(lineCount, known);
    return known;
  };
  return {
    propose: (options) => {
      const reading = readingFor(options.lineCount);
      const base = { ticksPerQuarter: score.ticksPerQuarter, lineCount: options.lineCount };
      const unaided = separationOf(reading, base);
      const lines = pitchedLinesInUse(options);
      const inUse = { lines, pins: options.pins, present: options.present ?? new Map<NoteId, readonly LineId[]>() };
      const labelled = labelledSplit(copies, unaided.labels, unaided.lineCount, inUse);
      const stays = options.lineCount === undefined || lines.length <= options.lineCount;
      const present = stays ? labelled.present : undefined;
      const separation =
        labelled.pins.size === 0 ? unaided : separationOf(reading, { ...base, pins: labelled.pins, present });
      return proposalFrom(score, copies, hits, separation, labelled, options);
    },
  };
}

/** One proposal for a score, see `splitProposer`. */
export const proposeSplit = (score: Score, options: ProposeOptions): Proposal => splitProposer(score).propose(options);
