import { linesOfNote, type LineId, type NoteId, type SoundingNote, type Split } from '../../music/index.ts';

/** Which way a step goes: along a line in time, or through what starts together. */
export type Step = 'next' | 'previous' | 'higher' | 'lower' | 'first' | 'last' | 'nextSlice' | 'previousSlice';

const heightOf = (note: SoundingNote): number => (note.sound.kind === 'pitched' ? note.sound.soundingMidi : -1);

/** The note that one step leads to from another; the same note where there is none that way. */
export function stepFrom(
  notes: readonly SoundingNote[],
  split: Pick<Split, 'marks'>,
  from: SoundingNote,
  step: Step,
): SoundingNote {
  switch (step) {
    case 'first':
      return notes[0] ?? from;
    case 'last':
      return notes.at(-1) ?? from;
    case 'higher':
    case 'lower':
      return inSlice(notes, from, step) ?? from;
    case 'nextSlice':
      return notes.find((note) => note.onsetTicks > from.onsetTicks) ?? from;
    case 'previousSlice':
      return notes.findLast((note) => note.onsetTicks < from.onsetTicks) ?? from;
    case 'next':
    case 'previous':
      return alongLine(notes, split, from, step) ?? from;
  }
}

function inSlice(
  notes: readonly SoundingNote[],
  from: SoundingNote,
  step: 'higher' | 'lower',
): SoundingNote | undefined {
  const slice = notes.filter((note) => note.onsetTicks === from.onsetTicks).sort((a, b) => heightOf(a) - heightOf(b));
  const index = slice.findIndex((note) => note.id === from.id);
  return slice[step === 'higher' ? index + 1 : index - 1];
}

function alongLine(
  notes: readonly SoundingNote[],
  split: Pick<Split, 'marks'>,
  from: SoundingNote,
  step: 'next' | 'previous',
): SoundingNote | undefined {
  const lines = linesOfNote(split, from.id);
  const isSame = (note: SoundingNote): boolean => sharesLine(linesOfNote(split, note.id), lines);
  return step === 'next'
    ? notes.find((note) => note.onsetTicks > from.onsetTicks && isSame(note))
    : notes.findLast((note) => note.onsetTicks < from.onsetTicks && isSame(note));
}

const sharesLine = (a: readonly LineId[], b: readonly LineId[]): boolean =>
  b.length === 0 ? a.length === 0 : a.some((line) => b.includes(line));

/** The next note in time, after `from` and then round from the start, that is wanted; null where none is. */
export function nextWanted(
  notes: readonly SoundingNote[],
  from: NoteId | null,
  isWanted: (note: SoundingNote) => boolean,
): SoundingNote | null {
  const start = notes.findIndex((note) => note.id === from) + 1;
  for (let step = 0; step < notes.length; step += 1) {
    const note = notes[(start + step) % notes.length];
    if (note !== undefined && isWanted(note)) return note;
  }
  return null;
}
