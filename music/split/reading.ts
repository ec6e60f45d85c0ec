import { anchoredProfile } from './anchors.ts';
import { certaintyOf } from './confidence.ts';
import type { CostContext } from './costs.ts';
import { evidenceOf } from './evidence.ts';
import { bestPath } from './lattice.ts';
import { lineCountOf } from './line-count.ts';
import { tableOfNotes, type NoteTable } from './moments.ts';
import { pricesOf } from './prices.ts';
import { searchLines } from './search.ts';
import { isTablature } from './tablature.ts';
import { mostLines, textureOf, type Texture } from './texture.ts';
import { unitsOf } from './units.ts';
import type { SeparateOptions, VoiceNote } from './voice-note.ts';
import { fittedWeights, tablatureWeights } from './weights.data.ts';

/** What a piece is heard as before any person has marked a note. */
export interface Reading {
  readonly table: NoteTable;
  readonly texture: Texture;
  readonly context: CostContext;
  /** The line of each unit, 0 the highest. */
  readonly lines: Uint8Array;
  /** How sure each unit's line is, 0 to 1. */
  readonly certainty: Float64Array;
}

const hasEvidence = (notes: readonly VoiceNote[]): boolean =>
  notes.some(
    ({ sourceVoice, stem, finger }) => sourceVoice !== undefined || stem !== undefined || finger !== undefined,
  );

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
  const unaided = bestPath(searchLines(context, null), context.units.momentStart);
  const evidence = evidenceOf(notes, table, context.units, unaided);
  const lineCount = Math.min(mostLines, Math.max(context.lineCount, ...evidence.map((kind) => kind.lineCount)));
  const isRaised = options.lineCount === undefined && lineCount > context.lineCount;
  return { ...(isRaised ? withLineCount(context, lineCount) : context), evidence };
}

/** The notes read without any person's marks; of the options only the count of lines and the length of a quarter are looked at. */
export function readVoices(notes: readonly VoiceNote[], options: SeparateOptions): Reading {
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
    evidence: [],
  };
  const asked = Math.min(mostLines, Math.max(1, options.lineCount ?? lineCountOf(texture)));
  const context = withEvidence(withLineCount(bare, asked), notes, table, options);
  const lattice = searchLines(context, null);
  const lines = bestPath(lattice, units.momentStart);
  const certainty = certaintyOf({ context, texture, lattice, lines });
  return { table, texture, context, lines, certainty };
}
