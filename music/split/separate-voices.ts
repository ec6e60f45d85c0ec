import { anchoredProfile } from './anchors.ts';
import { certaintyOf } from './confidence.ts';
import type { CostContext } from './costs.ts';
import { evidenceOf } from './evidence.ts';
import { bestPath, type Lattice } from './lattice.ts';
import { calmLeanings, leaningsOf } from './learning.ts';
import { lineCountOf } from './line-count.ts';
import { tableOfNotes, type NoteTable } from './moments.ts';
import { pricesOf } from './prices.ts';
import { searchLines } from './search.ts';
import { isTablature } from './tablature.ts';
import { mostLines, textureOf, type Texture } from './texture.ts';
import { unitsOf, type UnitTable } from './units.ts';
import type { SeparateOptions, Separation, VoiceNote } from './voice-note.ts';
import { fittedWeights, tablatureWeights } from './weights.data.ts';

const hasEvidence = (notes: readonly VoiceNote[]): boolean =>
  notes.some(
    ({ sourceVoice, stem, finger }) => sourceVoice !== undefined || stem !== undefined || finger !== undefined,
  );

interface Answer {
  readonly lattice: Lattice;
  /** The line of each unit. */
  readonly chosen: Uint8Array;
}

/** A piece holds chords where more notes than lines sound for this share of the time. */
const chordShare = 0.01;

function unitPins(
  table: NoteTable,
  units: UnitTable,
  lineCount: number,
  pins: ReadonlyMap<number, number> | undefined,
): Int8Array | null {
  if (pins === undefined || pins.size === 0) return null;
  const ofUnit = new Int8Array(units.unitCount).fill(-1);
  for (let index = 0; index < table.count; index++) {
    const label = pins.get(table.order[index] as number);
    if (label !== undefined && label < lineCount) ofUnit[units.unitOfNote[index] as number] = label;
  }
  return ofUnit;
}

function lineCountFor(texture: Texture, options: SeparateOptions): number {
  let count = options.lineCount ?? lineCountOf(texture);
  for (const label of options.pins?.values() ?? []) count = Math.max(count, label + 1);
  return Math.min(mostLines, Math.max(1, count));
}

function answer(context: CostContext, pins: Int8Array | null): Answer {
  const lattice = searchLines(context, pins);
  return { lattice, chosen: bestPath(lattice, context.units.momentStart) };
}

/** First without pins, then with them and little else changed, then with what they teach about like places. */
function answerWithPins(context: CostContext, texture: Texture, pins: Int8Array | null): Answer {
  const free = answer(context, null);
  if (pins === null) return free;
  const holdsChords = (texture.sounding[context.lineCount + 1] ?? 0) >= chordShare;
  const lesson = { units: context.units, pins, holdsChords };
  const settled = answer({ ...context, leanings: calmLeanings(lesson, free.chosen) }, pins);
  return answer({ ...context, leanings: leaningsOf(lesson, settled.chosen) }, pins);
}

function withLineCount(context: CostContext, lineCount: number): CostContext {
  return { ...context, lineCount, profile: anchoredProfile(context.units, lineCount, context.ticksPerQuarter) };
}

/** The context with what the file's own marks are worth; their count of lines is followed where none was asked for. */
function withEvidence(
  context: CostContext,
  notes: readonly VoiceNote[],
  table: NoteTable,
  options: SeparateOptions,
): CostContext {
  if (!hasEvidence(notes)) return context;
  const evidence = evidenceOf(notes, table, context.units, answer(context, null).chosen);
  const lineCount = Math.min(mostLines, Math.max(context.lineCount, ...evidence.map((kind) => kind.lineCount)));
  const isRaised = options.lineCount === undefined && lineCount > context.lineCount;
  return { ...(isRaised ? withLineCount(context, lineCount) : context), evidence };
}

/**
 * The notes split into lines by what is cheapest to follow; the same for the same notes, options and pins, whatever their order.
 * **Errors** none: no notes give no labels; pins beyond the number of lines raise it, to 8 at most; a pin beyond that is kept and steers nothing.
 */
export function separateVoices(notes: readonly VoiceNote[], options: SeparateOptions): Separation {
  const { ticksPerQuarter } = options;
  const table = tableOfNotes(notes);
  const lengthsTell = !isTablature(table);
  const units = unitsOf(table, ticksPerQuarter, lengthsTell);
  const texture = textureOf(table, ticksPerQuarter);
  const bare: CostContext = {
    units,
    lineCount: 1,
    ticksPerQuarter,
    prices: pricesOf(lengthsTell ? fittedWeights : tablatureWeights),
    lengthsTell,
    profile: null,
    leanings: null,
    evidence: [],
  };
  const context = withEvidence(withLineCount(bare, lineCountFor(texture, options)), notes, table, options);
  const { lineCount } = context;
  const { lattice, chosen } = answerWithPins(context, texture, unitPins(table, units, lineCount, options.pins));
  const certainty = certaintyOf({ context, texture, lattice, lines: chosen });
  const labels = new Array<number>(notes.length).fill(0);
  const confidences = new Array<number>(notes.length).fill(1);
  for (let index = 0; index < table.count; index++) {
    const unit = units.unitOfNote[index] as number;
    const note = table.order[index] as number;
    const pin = options.pins?.get(note);
    labels[note] = pin ?? (chosen[unit] as number);
    confidences[note] = pin === undefined ? (certainty[unit] as number) : 1;
  }
  return { labels, confidences, lineCount };
}
