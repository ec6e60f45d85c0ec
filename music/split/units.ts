import { exactLog2 } from '../basis/exact-math.ts';
import { mostUnitsPerMoment, type NoteTable } from './moments.ts';

/** Steps of note value per halving or doubling. */
const valueStepsPerOctave = 4;

/**
 * The units that are handed to lines: one per note as a rule; where a strum has more notes than the search can tell apart,
 * neighbours in pitch are one unit. **Shape** `unitOfNote` has one entry per note; the other columns one per unit.
 */
export interface UnitTable {
  readonly unitOfNote: Int32Array;
  readonly momentStart: Int32Array;
  readonly top: Int16Array;
  readonly low: Int16Array;
  readonly onset: Float64Array;
  readonly end: Float64Array;
  /** The latest time at which any note of the unit is heard as one of the voices. */
  readonly heardUntil: Float64Array;
  /** Note value: 4 × log2 of the length in quarters, rounded. */
  readonly value: Int16Array;
  /** 1 where the note is marked to ring on. */
  readonly ringing: Uint8Array;
  readonly unitCount: number;
}

function groupNotes(table: NoteTable, from: number, to: number, lastOfUnit: Uint8Array): void {
  let extra = to - from - mostUnitsPerMoment;
  lastOfUnit.fill(1, from, to);
  for (let interval = 1; extra > 0; interval++)
    for (let note = from; note < to - 1 && extra > 0; note++) {
      const distance = (table.midi[note] as number) - (table.midi[note + 1] as number);
      if (lastOfUnit[note] === 0 || distance > interval) continue;
      lastOfUnit[note] = 0;
      extra--;
    }
}

/** The notes gathered into units, from high to low within each moment. */
export function unitsOf(table: NoteTable, ticksPerQuarter: number, lengthsTell = true): UnitTable {
  const ends = lengthsTell ? table.end : table.heardUntil;
  const lastOfUnit = new Uint8Array(table.count);
  for (let moment = 0; moment < table.momentCount; moment++)
    groupNotes(table, table.momentStart[moment] as number, table.momentStart[moment + 1] as number, lastOfUnit);
  const unitOfNote = new Int32Array(table.count);
  const momentStart = new Int32Array(table.momentCount + 1);
  const columns = {
    top: new Int16Array(table.count),
    low: new Int16Array(table.count),
    onset: new Float64Array(table.count),
    end: new Float64Array(table.count),
    heardUntil: new Float64Array(table.count),
    value: new Int16Array(table.count),
    ringing: new Uint8Array(table.count),
  };
  const valueOfLength = new Map<number, number>();
  let unit = 0;
  let isFirst = true;
  for (let note = 0, moment = 0; note < table.count; note++) {
    if (table.momentStart[moment] === note) momentStart[moment++] = unit;
    unitOfNote[note] = unit;
    if (isFirst) columns.top[unit] = table.midi[note] as number;
    columns.low[unit] = table.midi[note] as number;
    columns.onset[unit] = table.onset[note] as number;
    columns.end[unit] = isFirst ? (ends[note] as number) : Math.max(columns.end[unit] as number, ends[note] as number);
    columns.heardUntil[unit] = Math.max(columns.heardUntil[unit] as number, table.heardUntil[note] as number);
    if (table.ringing[note] === 1) columns.ringing[unit] = 1;
    const length = (columns.end[unit] as number) - (columns.onset[unit] as number);
    let value = valueOfLength.get(length);
    if (value === undefined)
      valueOfLength.set(length, (value = Math.round(valueStepsPerOctave * exactLog2(length / ticksPerQuarter))));
    columns.value[unit] = value;
    isFirst = lastOfUnit[note] === 1;
    if (isFirst) unit++;
  }
  momentStart[table.momentCount] = unit;
  return { ...columns, unitOfNote, momentStart, unitCount: unit };
}
