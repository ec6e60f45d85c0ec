import { followMarks } from './follow-marks.ts';
import type { NoteTable } from './moments.ts';
import { readVoices, type Reading } from './reading.ts';
import { checkRequest } from './request.ts';
import type { UnitTable } from './units.ts';
import type { SeparateOptions, Separation, VoiceNote } from './voice-note.ts';

/** Spreads what units have over the notes, in the order of the input. **Shape** one entry per note. */
function perNote<Value>(table: NoteTable, units: UnitTable, valueOf: (unit: number, note: number) => Value): Value[] {
  const values = new Array<Value>(table.count);
  for (let index = 0; index < table.count; index++) {
    const note = table.order[index] as number;
    values[note] = valueOf(units.unitOfNote[index] as number, note);
  }
  return values;
}

/** What a reading comes to with a person's marks, where there are any. */
export function separationOf(reading: Reading, options: SeparateOptions): Separation {
  const { table, context } = reading;
  const hasMarks = options.pins !== undefined && options.pins.size > 0;
  const { labels, certainty, order } = hasMarks
    ? followMarks(reading, options)
    : {
        labels: reading.lines,
        certainty: reading.certainty,
        order: Array.from({ length: context.lineCount }, (_, label) => label),
      };
  return {
    labels: perNote(table, context.units, (unit, note) => options.pins?.get(note) ?? (labels[unit] as number)),
    confidences: perNote(table, context.units, (unit, note) =>
      options.pins?.has(note) === true ? 1 : (certainty[unit] as number),
    ),
    lineCount: order.length,
    order,
  };
}

/**
 * The notes split into lines by what is cheapest to follow; the same for the same notes, options and pins, whatever their order.
 * **Errors** throws a RangeError that says which number is out of range. No notes give no labels; pins beyond the number of lines are further lines, 8 in all at most; a pin beyond that is kept and steers nothing.
 */
export function separateVoices(notes: readonly VoiceNote[], options: SeparateOptions): Separation {
  checkRequest(notes, options);
  return separationOf(readVoices(notes, options), options);
}
