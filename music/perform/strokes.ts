import type { EventVoice, Instrument, Stroke } from './performance.ts';
import type { PlayedNote } from './played-notes.ts';

function strokeOf({ isGrace, main }: PlayedNote, isSlidInto: boolean): Stroke {
  if (isGrace) return 'pluck';
  const { techniques } = main;
  if (techniques.includes('palmMute')) return 'palmMute';
  if (techniques.includes('naturalHarmonic') || techniques.includes('artificialHarmonic')) return 'harmonic';
  const isJoined = techniques.includes('hammerOn') || techniques.includes('pullOff');
  return isJoined || isSlidInto ? 'legato' : 'pluck';
}

/** What a note sounds with on an instrument; one that is hammered, pulled off or slid into is not plucked again. */
export function eventVoiceOf(note: PlayedNote, instrument: Instrument, isSlidInto: boolean): EventVoice {
  if (note.sound.kind === 'hit') return { kind: 'hit', hit: note.sound.hit };
  return { kind: 'pitched', instrument, midi: note.sound.soundingMidi, stroke: strokeOf(note, isSlidInto) };
}
