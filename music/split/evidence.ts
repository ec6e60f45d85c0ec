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
/** Evidence that agrees with the unaided answer less than this beyond chance is not believed for that. */
const leastAgreement = 0.65;
/** Source voices whose notes follow each other by so much smaller steps than by chance are believed whatever the unaided answer. */
const leastSmoothness = 0.45;
/** Wider leaps are as rough as this one. **Units** semitones. */
const widestLeap = 12;
/** A source voice with fewer of the notes than this does not speak for a line of its own. */
const leastShareOfLine = 0.08;

const voiceOf = (note: VoiceNote): string | undefined => note.sourceVoice;
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

function leapsTo(units: UnitTable, unit: number, from: number, to: number): number {
  let sum = 0;
  for (let other = from; other < to; other++)
    sum += Math.min(widestLeap, Math.abs((units.top[unit] as number) - (units.top[other] as number)));
  return sum / (to - from);
}

/** How much smaller the steps between notes of one mark are than those between any notes of neighbouring moments: 0 as large, towards 1 ever smaller. */
function smoothness(marks: Int16Array, units: UnitTable): number {
  const last = new Map<number, number>();
  let [steps, chance] = [0, 0];
  for (let moment = 0; moment + 1 < units.momentStart.length; moment++) {
    const from = units.momentStart[moment] as number;
    const to = units.momentStart[moment + 1] as number;
    for (let unit = from; unit < to; unit++) {
      const before = last.get(marks[unit] as number);
      if (before === undefined || marks[unit] === -1) continue;
      steps += leapsTo(units, unit, before, before + 1);
      chance += leapsTo(units, unit, units.momentStart[moment - 1] as number, from);
    }
    for (let unit = from; unit < to; unit++) last.set(marks[unit] as number, unit);
  }
  return chance === 0 ? 0 : 1 - steps / chance;
}

/** What there is to judge marks by. */
interface Grounds {
  readonly notes: readonly VoiceNote[];
  readonly table: NoteTable;
  readonly units: UnitTable;
  readonly unaided: Uint8Array;
}

/** Source voices, with their stems where there is but one voice. */
function layerEvidence({ notes, table, units, unaided }: Grounds): readonly Evidence[] {
  const voices = marksOf(notes, table, units, voiceOf);
  const hasVoices = largeMarks(voices) >= 2;
  const mark = hasVoices ? voices : marksOf(notes, table, units, layerOf);
  const isSmooth = hasVoices && smoothness(mark, units) >= leastSmoothness;
  const trust = isSmooth ? 1 : agreement(mark, unaided);
  if (trust < leastAgreement) return [];
  return [{ mark, lineCount: largeMarks(mark), price: Math.round(layerPrice * trust * costPerSemitone) }];
}

function thumbEvidence({ notes, table, units, unaided }: Grounds): readonly Evidence[] {
  const mark = marksOf(notes, table, units, thumbOf);
  const trust = agreement(mark, unaided);
  if (trust < leastAgreement) return [];
  return [{ mark, lineCount: 0, price: Math.round(thumbPrice * trust * costPerSemitone) }];
}

/**
 * What the file's own marks are worth: those that agree well beyond chance with the answer found without them, and source voices that make
 * smooth lines, may mend its doubtful places; others are left aside.
 */
export function evidenceOf(
  notes: readonly VoiceNote[],
  table: NoteTable,
  units: UnitTable,
  unaided: Uint8Array,
): readonly Evidence[] {
  const grounds = { notes, table, units, unaided };
  return [...layerEvidence(grounds), ...thumbEvidence(grounds)];
}
