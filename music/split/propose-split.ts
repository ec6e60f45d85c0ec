import type { LineId, NoteId } from '../basis/ids.ts';
import type { Line } from '../operations/split.ts';
import type { Score, SoundingNote } from '../score/score.ts';
import { evidencedNotes, type EvidencedNote } from './guitar-evidence.ts';
import { sortHits } from './hits.ts';
import { matchLines } from './line-matching.ts';
import { madeLines, type NeededLine } from './proposal-lines.ts';
import type { LineReason, Proposal, ProposedMark } from './proposal.ts';
import { characterOf, rolesOf, type RoleFound } from './roles.ts';
import { mostLines } from './texture.ts';
import { separateVoices } from './separate-voices.ts';
import type { Separation } from './voice-note.ts';

/** What a proposal starts from beside the score. */
export interface ProposeOptions {
  /** How many pitched lines to propose; found from the music where absent. The percussion line is not counted. */
  readonly lineCount?: number | undefined;
  /** The lines that people have put notes on; none of them is overridden. */
  readonly pins: ReadonlyMap<NoteId, readonly LineId[]>;
  /** The lines that notes are on now, by whomever; they decide only which voice of the music goes on as which line. */
  readonly present?: ReadonlyMap<NoteId, readonly LineId[]> | undefined;
  /** The lines that the split has now, retired ones included; they are used again where they fit. */
  readonly lines: readonly Line[];
  readonly newLineId: () => LineId;
}

interface PitchedPart {
  readonly copies: readonly EvidencedNote[];
  readonly separation: Separation;
  /** The existing line of each slot, where there is one. */
  readonly lineOfSlot: ReadonlyMap<number, LineId>;
}

const strumConfidence = 0.4;

function copiesToSplit(
  score: Pick<Score, 'notes'>,
  options: ProposeOptions,
  isPitchedLine: (line: LineId) => boolean,
): readonly EvidencedNote[] {
  const seen = new Set<NoteId>();
  return evidencedNotes(score).filter(({ source }) => {
    const pin = options.pins.get(source.id);
    if (pin === undefined) return true;
    const isSecond = seen.has(source.id);
    seen.add(source.id);
    return !isSecond && pin.length === 1 && isPitchedLine(pin[0] as LineId);
  });
}

/** The lines with pins that the search may steer by: as many as it can tell apart. */
function pinnedPitchedLines({ lines, pins }: ProposeOptions): ReadonlySet<LineId> {
  const pinned = new Set([...pins.values()].flat());
  const usable = lines.filter((line) => line.role !== 'percussion' && pinned.has(line.id));
  return new Set(usable.slice(0, mostLines).map((line) => line.id));
}

function pinnedLine(copy: EvidencedNote, options: ProposeOptions): LineId | undefined {
  return options.pins.get(copy.source.id)?.[0];
}

function votesOf(copies: readonly EvidencedNote[], free: Separation, options: ProposeOptions): Map<LineId, number[]> {
  const votes = new Map<LineId, number[]>();
  copies.forEach((copy, index) => {
    const line = pinnedLine(copy, options) ?? options.present?.get(copy.source.id)?.[0];
    if (line === undefined) return;
    const counts = votes.get(line) ?? new Array<number>(free.lineCount).fill(0);
    counts[free.labels[index] as number] = (counts[free.labels[index] as number] as number) + 1;
    votes.set(line, counts);
  });
  return votes;
}

function separateWithPins(copies: readonly EvidencedNote[], score: Score, options: ProposeOptions): PitchedPart {
  const notes = copies.map((copy) => copy.note);
  const pinnedLines = [...new Set(copies.flatMap((copy) => pinnedLine(copy, options) ?? []))];
  const ordered = options.lines.filter((line) => pinnedLines.includes(line.id)).map((line) => line.id);
  const request = { ticksPerQuarter: score.ticksPerQuarter };
  const found = separateVoices(notes, { ...request, lineCount: options.lineCount });
  if (ordered.length === 0) return { copies, separation: found, lineOfSlot: new Map() };
  const lineCount = Math.max(found.lineCount, ordered.length);
  const free = lineCount === found.lineCount ? found : separateVoices(notes, { ...request, lineCount });
  const slotOfLine = matchLines(ordered, votesOf(copies, free, options), lineCount);
  const pins = new Map<number, number>();
  copies.forEach((copy, index) => {
    const slot = slotOfLine.get(pinnedLine(copy, options) ?? ('' as LineId));
    if (slot !== undefined) pins.set(index, slot);
  });
  const lineOfSlot = new Map([...slotOfLine].map(([line, slot]) => [slot, line]));
  return { copies, separation: separateVoices(notes, { ...request, lineCount, pins }), lineOfSlot };
}

/** Existing lines for the slots that pins leave open: the same role first, from high to low. */
function neededLines(part: PitchedPart, roles: readonly RoleFound[], options: ProposeOptions): readonly NeededLine[] {
  const used = new Set(part.lineOfSlot.values());
  const byId = new Map(options.lines.map((line) => [line.id, line]));
  return roles.map((found, slot): NeededLine => {
    const pinned = byId.get(part.lineOfSlot.get(slot) ?? ('' as LineId));
    if (pinned !== undefined) return { kind: 'existing', line: pinned };
    const alike = options.lines.find((line) => !line.isRetired && line.role === found.role && !used.has(line.id));
    if (alike === undefined) return { kind: 'new', role: found.role };
    used.add(alike.id);
    return { kind: 'existing', line: alike };
  });
}

function pitchedMarks(part: PitchedPart, lines: readonly Line[]): Map<NoteId, ProposedMark> {
  const marks = new Map<NoteId, ProposedMark>();
  part.copies.forEach(({ source }, index) => {
    const line = (lines[part.separation.labels[index] as number] as Line).id;
    const confidence = part.separation.confidences[index] as number;
    const before = marks.get(source.id);
    const together = [...new Set([...(before?.lines ?? []), line])].sort();
    marks.set(source.id, { lines: together, confidence: Math.min(before?.confidence ?? 1, confidence) });
  });
  return marks;
}

function percussionNeed(percussion: readonly SoundingNote[], options: ProposeOptions): readonly NeededLine[] {
  if (percussion.every((hit) => options.pins.has(hit.id))) return [];
  const line = options.lines.find((known) => !known.isRetired && known.role === 'percussion');
  return [line === undefined ? { kind: 'new', role: 'percussion' } : { kind: 'existing', line }];
}

function allLines(options: ProposeOptions, made: readonly Line[]): readonly Line[] {
  const ids = new Set(options.lines.map((line) => line.id));
  return [...options.lines, ...made.filter((line) => !ids.has(line.id))].sort((a, b) =>
    a.orderKey < b.orderKey ? -1 : a.orderKey > b.orderKey ? 1 : 0,
  );
}

/**
 * The lines that the music of a score is best heard as, with every pinned note where its person put it: hits to the percussion line, the rest
 * by `separateVoices`. The same score, pins and lines give the same proposal.
 */
export function proposeSplit(score: Score, options: ProposeOptions): Proposal {
  const pitchedLines = pinnedPitchedLines(options);
  const hits = sortHits(score);
  const part = separateWithPins(
    copiesToSplit(score, options, (line) => pitchedLines.has(line)),
    score,
    options,
  );
  const slots = Array.from({ length: part.copies.length === 0 ? 0 : part.separation.lineCount }, (_, slot) =>
    part.copies.filter((_copy, index) => part.separation.labels[index] === slot).map((copy) => copy.note),
  );
  const roles = rolesOf(slots.map(characterOf));
  const needs = [...neededLines(part, roles, options), ...percussionNeed(hits.percussion, options)];
  const made = madeLines(needs, options.lines, options.newLineId);
  const marks = pitchedMarks(part, made);
  const percussionLine = made.at(-1);
  for (const { id, sound } of hits.percussion)
    if (percussionLine !== undefined)
      marks.set(id, {
        lines: [percussionLine.id],
        confidence: sound.kind === 'hit' && sound.isCertain ? 1 : strumConfidence,
      });
  for (const [hit, companion] of hits.withStrum)
    marks.set(hit.id, {
      lines: (marks.get(companion.id)?.lines ?? options.pins.get(companion.id) ?? []).slice(0, 1),
      confidence: strumConfidence,
    });
  for (const note of score.notes) {
    const pin = options.pins.get(note.id);
    if (pin !== undefined) marks.set(note.id, { lines: [...pin].sort(), confidence: 1 });
  }
  const reasons = roles.map((found, slot): LineReason => ({ line: (made[slot] as Line).id, reason: found.reason }));
  return { lines: allLines(options, made), marks, reasons };
}
