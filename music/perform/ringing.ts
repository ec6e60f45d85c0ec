import { beginsNote, hasTechnique, type PlayedNote } from './played-notes.ts';

/** How far apart two frets may be before the hand must have moved. From memory, no source. */
const handSpanFrets = 4;
const shortestSeconds = 0.05;

/** Whether playing `later` takes the finger off `note`: the same string, the same finger elsewhere, or a fret out of reach. */
function damps(note: PlayedNote, later: PlayedNote): boolean {
  const here = note.fingerboard;
  const there = later.fingerboard;
  if (here === null || there === null) return false;
  if (here.string === there.string) return true;
  if (!beginsNote(later) || here.fret === 0 || there.fret === 0 || later.sound.kind === 'hit') return false;
  const finger = note.main.frettingFinger;
  const isSameFinger =
    !note.isGrace &&
    !later.isGrace &&
    finger !== null &&
    finger > 0 &&
    finger === later.main.frettingFinger &&
    here.fret !== there.fret;
  return isSameFinger || Math.abs(here.fret - there.fret) > handSpanFrets;
}

/** The moment at which the note would end if nothing on the fingerboard ended it. */
function longestSeconds(note: PlayedNote): number {
  if (hasTechnique(note, 'staccato')) return note.onsetSeconds + (note.endSeconds - note.onsetSeconds) / 2;
  if (hasTechnique(note, 'letRing')) return note.latestSeconds;
  const slidesOff = hasTechnique(note, 'slideOut') || hasTechnique(note, 'slideOutUpwards');
  if (note.fingerboard === null || slidesOff) return note.endSeconds;
  return Math.min(note.latestSeconds, Math.max(note.restSeconds, note.endSeconds));
}

/**
 * How long each note rings, in the notes' order: a note on a known string until that string is struck again or damped
 * (by a rest of its own voice, by its finger or hand moving, after two bars at the latest); any other for its written length.
 * **Units** seconds.
 */
export function ringsOf(notes: readonly PlayedNote[]): readonly number[] {
  return notes.map((note, index) => {
    let end = longestSeconds(note);
    for (let next = index + 1; next < notes.length; next += 1) {
      const later = notes[next];
      if (later === undefined || later.onsetSeconds >= end) break;
      if (later.onsetSeconds <= note.onsetSeconds + 1e-9) continue;
      if (damps(note, later)) end = later.onsetSeconds;
    }
    return Math.max(shortestSeconds, end - note.onsetSeconds);
  });
}
