import { midiOf, pitchOfMidi, type Pitch } from '../basis/pitch.ts';
import type { Score, SoundingNote } from './score.ts';
import type { Key } from './signatures.ts';
import { keyAt, toneByFifths } from './tonality.ts';

const keysRound = 12;
const fifthsPerSemitone = 7;
const mostSharps = 6;
const mostSigns = 2;

/** The key so many semitones higher, with no more than six sharps or flats: six of what it had before. A key that is not moved stays as it is. */
export function movedKey(key: Key, semitones: number): Key {
  if (semitones === 0) return key;
  const place = key.fifths + fifthsPerSemitone * semitones;
  const sharps = ((place % keysRound) + keysRound) % keysRound;
  const isFlat = sharps > mostSharps || (sharps === mostSharps && key.fifths < 0);
  return { ...key, fifths: isFlat ? sharps - keysRound : sharps };
}

function movedPitch(pitch: Pitch, semitones: number, from: Key, to: Key): Pitch {
  const midi = midiOf(pitch) + semitones;
  const tone = toneByFifths(pitch, to.fifths - from.fifths);
  if (Math.abs(tone.alter) > mostSigns) return pitchOfMidi(Math.round(midi), to.fifths);
  return { ...tone, octave: (midi - midiOf({ ...tone, octave: -1 })) / keysRound - 1 };
}

/** Notes, bars and changes of key moved by semitones: each key to its neighbour, each note to the same degree of it, so that names fit. */
export function movedNotes(
  score: Pick<Score, 'notes' | 'bars' | 'keyChanges'>,
  semitones: number,
): Pick<Score, 'notes' | 'bars' | 'keyChanges'> {
  const { notes, bars, keyChanges } = score;
  if (semitones === 0) return { notes, bars, keyChanges };
  const moved = (note: SoundingNote): SoundingNote => {
    if (note.sound.kind === 'hit') return note;
    const from = keyAt(score, note.onsetTicks);
    const move = (pitch: Pitch): Pitch => movedPitch(pitch, semitones, from, movedKey(from, semitones));
    const { written, sounding, soundingMidi } = note.sound;
    const sound = {
      kind: 'pitched' as const,
      written: move(written),
      sounding: move(sounding),
      soundingMidi: soundingMidi + semitones,
    };
    return { ...note, sound };
  };
  return {
    notes: notes.map(moved),
    bars: bars.map((bar) => ({ ...bar, key: movedKey(bar.key, semitones) })),
    keyChanges: keyChanges.map((change) => ({ ...change, key: movedKey(change.key, semitones) })),
  };
}
