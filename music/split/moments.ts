import type { VoiceNote } from './voice-note.ts';

/** The notes of one onset are told apart at most this finely; what is more is heard as one block. */
export const mostUnitsPerMoment = 6;

/** Notes sorted by onset and then from high to low, as typed columns. **Shape** every column has one entry per note; `order[i]` is the note's place in the input. */
export interface NoteTable {
  readonly count: number;
  readonly order: Int32Array;
  readonly onset: Float64Array;
  readonly end: Float64Array;
  /** When a note stops being heard as one of the voices: a ringing note at the next moment, any other when it ends. */
  readonly heardUntil: Float64Array;
  readonly midi: Int16Array;
  /** 1 where the note is marked to ring on. */
  readonly ringing: Uint8Array;
  /** Where each moment's notes begin; one more entry than there are moments. */
  readonly momentStart: Int32Array;
  readonly momentCount: number;
}

function compareNotes(a: VoiceNote, b: VoiceNote): number {
  if (a.onsetTicks !== b.onsetTicks) return a.onsetTicks - b.onsetTicks;
  if (a.midi !== b.midi) return b.midi - a.midi;
  return a.lengthTicks - b.lengthTicks;
}

/** The notes in the splitter's order; the order of the input decides only between notes of the same onset, pitch and length. */
export function tableOfNotes(notes: readonly VoiceNote[]): NoteTable {
  const count = notes.length;
  const order = Int32Array.from(notes.keys());
  order.sort((a, b) => compareNotes(notes[a] as VoiceNote, notes[b] as VoiceNote) || a - b);
  const onset = new Float64Array(count);
  const end = new Float64Array(count);
  const midi = new Int16Array(count);
  const ringing = new Uint8Array(count);
  const starts: number[] = [];
  for (let index = 0; index < count; index++) {
    const note = notes[order[index] as number] as VoiceNote;
    onset[index] = note.onsetTicks;
    end[index] = note.onsetTicks + Math.max(1, note.lengthTicks);
    midi[index] = note.midi;
    ringing[index] = note.letRing === true ? 1 : 0;
    if (index === 0 || onset[index] !== onset[index - 1]) starts.push(index);
  }
  const momentCount = starts.length;
  const heardUntil = Float64Array.from(end);
  for (let moment = 0; moment + 1 < momentCount; moment++) {
    const next = starts[moment + 1] as number;
    for (let note = starts[moment] as number; note < next; note++)
      if (ringing[note] === 1) heardUntil[note] = Math.min(end[note] as number, onset[next] as number);
  }
  starts.push(count);
  return { count, order, onset, end, heardUntil, midi, ringing, momentStart: Int32Array.from(starts), momentCount };
}
