import { anchoredProfile } from './anchors.ts';
import { confidenceOf, marginsOf } from './confidence.ts';
import { bestPath } from './lattice.ts';
import { tableOfNotes, type NoteTable } from './moments.ts';
import { pricesOf } from './prices.ts';
import { searchLines } from './search.ts';
import { lineCountOf, mostLines, textureOf } from './texture.ts';
import { unitsOf, type UnitTable } from './units.ts';
import type { SeparateOptions, Separation, VoiceNote } from './voice-note.ts';
import { pluckedWeights, type Weights } from './weights.data.ts';

function unitPins(table: NoteTable, units: UnitTable, options: SeparateOptions): Int8Array | null {
  if (options.pins === undefined || options.pins.size === 0) return null;
  const pins = new Int8Array(units.unitCount).fill(-1);
  for (let index = 0; index < table.count; index++) {
    const label = options.pins.get(table.order[index] as number);
    if (label !== undefined) pins[units.unitOfNote[index] as number] = label;
  }
  return pins;
}

function countOfLines(table: NoteTable, options: SeparateOptions): number {
  let count = options.lineCount ?? lineCountOf(textureOf(table));
  for (const label of options.pins?.values() ?? []) count = Math.max(count, label + 1);
  return Math.min(mostLines, Math.max(1, count));
}

export function separateWith(notes: readonly VoiceNote[], options: SeparateOptions, weights: Weights): Separation {
  const table = tableOfNotes(notes);
  const units = unitsOf(table, options.ticksPerQuarter);
  const lineCount = countOfLines(table, options);
  const context = { units, lineCount, ticksPerQuarter: options.ticksPerQuarter, prices: pricesOf(weights), profile: anchoredProfile(units, lineCount, options.ticksPerQuarter) };
  const lattice = searchLines(context, unitPins(table, units, options));
  const chosen = bestPath(lattice, units.momentStart);
  const margins = marginsOf(lattice, units.momentStart, chosen);
  const labels = new Array<number>(notes.length).fill(0);
  const confidences = new Array<number>(notes.length).fill(1);
  for (let index = 0; index < table.count; index++) {
    const unit = units.unitOfNote[index] as number;
    const note = table.order[index] as number;
    labels[note] = options.pins?.get(note) ?? (chosen[unit] as number);
    confidences[note] = options.pins?.has(note) === true ? 1 : confidenceOf(margins[unit] as number);
  }
  return { labels, confidences, lineCount, cost: lattice.totalCost } as Separation;
}

/** The notes split into lines by what is cheapest to follow; the same whatever the order of the input. **Source** see docs/splitting.md. */
export const separateVoices = (notes: readonly VoiceNote[], options: SeparateOptions): Separation => separateWith(notes, options, pluckedWeights);
