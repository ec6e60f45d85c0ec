import type { NoteTable } from './moments.ts';
import { costPerSemitone } from './prices.ts';
import type { UnitTable } from './units.ts';
import type { VoiceNote } from './voice-note.ts';

/** One kind of mark that the file carries, such as the source voice: units with unlike marks are dearer to link. **Shape** `mark` has one entry per unit, −1 where the file is silent. */
export interface Evidence {
  readonly mark: Int16Array;
  /** How many lines the marks speak for; 0 where they do not tell. */
  readonly lineCount: number;
  /** **Units** 1/256 semitone. */
  readonly price: number;
}

/** Linking notes of unlike source voices costs this where source voices are wholly to be believed. **Units** semitones. */
const layerPrice = 14;
/** The same for a thumb note and a finger note. **Units** semitones. */
const thumbPrice = 6;
/** Evidence that agrees with the unaided answer less than this beyond chance is not believed at all. */
const leastAgreement = 0.65;
/** A source voice with fewer of the notes than this does not speak for a line of its own. */
const leastShareOfLine = 0.08;

const layerOf = (note: VoiceNote): string | undefined =>
  note.sourceVoice === undefined && note.stem === undefined
    ? undefined
    : `${note.sourceVoice ?? ''} ${note.stem ?? ''}`;
const thumbOf = (note: VoiceNote): string | undefined =>
  note.finger === undefined ? undefined : note.finger === 'p' ? 'thumb' : 'finger';

function marksOf(
  notes: readonly VoiceNote[],
  table: NoteTable,
  units: UnitTable,
  markOf: (note: VoiceNote) => string | undefined,
): Int16Array {
  const names = new Map<string, number>();
  const marks = new Int16Array(units.unitCount).fill(-1);
  for (let index = 0; index < table.count; index++) {
    const name = markOf(notes[table.order[index] as number] as VoiceNote);
    if (name === undefined) continue;
    const known = names.get(name) ?? names.size;
    names.set(name, known);
    marks[units.unitOfNote[index] as number] = known;
  }
  return marks;
}

/** How much more often than by chance neighbours of one line bear the same mark: 1 always, 0 no more than by chance. */
function agreement(marks: Int16Array, chosen: Uint8Array): number {
  const counts = new Map<number, number>();
  const last = new Map<number, number>();
  let [links, same, marked] = [0, 0, 0];
  marks.forEach((mark, unit) => {
    if (mark === -1) return;
    marked++;
    counts.set(mark, (counts.get(mark) ?? 0) + 1);
    const before = last.get(chosen[unit] as number);
    if (before !== undefined) {
      links++;
      if (before === mark) same++;
    }
    last.set(chosen[unit] as number, mark);
  });
  let chance = 0;
  for (const count of counts.values()) chance += (count / marked) * (count / marked);
  return links === 0 || chance > 0.98 ? 0 : (same / links - chance) / (1 - chance);
}

function largeMarks(marks: Int16Array): number {
  const counts = new Map<number, number>();
  for (const mark of marks) if (mark !== -1) counts.set(mark, (counts.get(mark) ?? 0) + 1);
  return [...counts.values()].filter((count) => count >= leastShareOfLine * marks.length).length;
}

/**
 * What the file's own marks are worth, judged by the answer found without them: marks that agree with it well beyond chance may mend its
 * doubtful places, others are left aside.
 */
export function evidenceOf(
  notes: readonly VoiceNote[],
  table: NoteTable,
  units: UnitTable,
  unaided: Uint8Array,
): readonly Evidence[] {
  const kinds = [
    [layerOf, layerPrice, true],
    [thumbOf, thumbPrice, false],
  ] as const;
  return kinds.flatMap(([markOf, semitones, countsLines]) => {
    const mark = marksOf(notes, table, units, markOf);
    const trust = agreement(mark, unaided);
    return trust < leastAgreement
      ? []
      : [
          {
            mark,
            lineCount: countsLines ? largeMarks(mark) : 0,
            price: Math.round(semitones * trust * costPerSemitone),
          },
        ];
  });
}
