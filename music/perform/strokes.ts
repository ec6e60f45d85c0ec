import type { EventVoice, Instrument, Stroke } from './performance.ts';
import { hasTechnique, type PlayedNote } from './played-notes.ts';

function strokeOf(note: PlayedNote, isSlidInto: boolean): Stroke {
  if (hasTechnique(note, 'palmMute')) return 'palmMute';
  if (hasTechnique(note, 'naturalHarmonic') || hasTechnique(note, 'artificialHarmonic')) return 'harmonic';
  const isJoined = note.isHammered || hasTechnique(note, 'hammerOn') || hasTechnique(note, 'pullOff');
  return isJoined || isSlidInto ? 'legato' : 'pluck';
}

/** What a note sounds with on an instrument; one that is hammered, pulled off or slid into is not plucked again. */
export function eventVoiceOf(note: PlayedNote, instrument: Instrument, isSlidInto: boolean): EventVoice {
  if (note.sound.kind === 'hit') return { kind: 'hit', hit: note.sound.hit };
  return { kind: 'pitched', instrument, midi: note.sound.soundingMidi, stroke: strokeOf(note, isSlidInto) };
}
