import type { LineId } from '../basis/ids.ts';
import { linesOfNote, type Split } from '../operations/split.ts';
import type { TickRange } from '../score/excerpt.ts';
import type { Score, SoundingNote } from '../score/score.ts';

/** From one pitch to another, both included. **Units** MIDI note numbers. */
export interface PitchRange {
  readonly lowMidi: number;
  readonly highMidi: number;
}

/** Kinds of voices by where they are comfortable. */
export type VoiceKind = 'low' | 'middleLow' | 'middleHigh' | 'high';

/** Where voices of a kind are comfortable without training: an octave and a fifth each. From memory, no source. */
export const voiceRanges: Readonly<Record<VoiceKind, PitchRange>> = {
  low: { lowMidi: 41, highMidi: 60 },
  middleLow: { lowMidi: 48, highMidi: 67 },
  middleHigh: { lowMidi: 53, highMidi: 72 },
  high: { lowMidi: 60, highMidi: 79 },
};

/** How singing is moved for a voice: octaves move the singing alone, semitones all the music with it. */
export interface SingingMove {
  readonly octaves: number;
  readonly semitones: number;
  /** How far the moved line still lies beyond the voice, both ends together; 0 where it fits. **Units** semitones. */
  readonly beyondSemitones: number;
}

/** Nothing is moved. */
export const unmoved: SingingMove = { octaves: 0, semitones: 0, beyondSemitones: 0 };

const octaveSemitones = 12;
const octavesTried = [0, -1, 1, -2, 2, -3, 3] as const;
const semitonesTried = [0, -1, 1, -2, 2, -3, 3, -4, 4, -5, 5, 6] as const;

/** The smallest move that brings what is sung into a voice, or else as near as can be: rather octaves than semitones, and few of both. */
export function singingMove(sung: PitchRange, voice: PitchRange): SingingMove {
  let best: SingingMove | null = null;
  for (const semitones of semitonesTried)
    for (const octaves of octavesTried) {
      const shift = octaves * octaveSemitones + semitones;
      const below = Math.max(0, voice.lowMidi - sung.lowMidi - shift);
      const above = Math.max(0, sung.highMidi + shift - voice.highMidi);
      const beyondSemitones = below + above;
      if (best === null || beyondSemitones < best.beyondSemitones) best = { octaves, semitones, beyondSemitones };
    }
  return best ?? unmoved;
}

type PitchedNote = SoundingNote & { readonly sound: Extract<SoundingNote['sound'], { readonly kind: 'pitched' }> };
const isPitched = (note: SoundingNote): note is PitchedNote => note.sound.kind === 'pitched';

/** The pitched notes of a line that begin within a stretch, in order; of notes struck together the highest, which is the one to sing. */
export function sungNotes(
  score: Pick<Score, 'notes'>,
  split: Pick<Split, 'marks'>,
  line: LineId,
  range: TickRange,
): readonly PitchedNote[] {
  const highest = new Map<number, PitchedNote>();
  for (const note of score.notes) {
    if (note.onsetTicks < range.startTicks || note.onsetTicks >= range.endTicks) continue;
    if (!isPitched(note) || !linesOfNote(split, note.id).includes(line)) continue;
    const known = highest.get(note.onsetTicks);
    if (known === undefined || note.sound.soundingMidi > known.sound.soundingMidi) highest.set(note.onsetTicks, note);
  }
  return [...highest.values()].sort((a, b) => a.onsetTicks - b.onsetTicks);
}

/** From the lowest to the highest of some notes; null where there are none. */
export function pitchRangeOf(notes: readonly PitchedNote[]): PitchRange | null {
  if (notes.length === 0) return null;
  const midis = notes.map(({ sound }) => sound.soundingMidi);
  return { lowMidi: Math.min(...midis), highMidi: Math.max(...midis) };
}

const lowestDrone = 40;

/** Where a tone of this pitch class is droned under singing: at its lowest note or less than an octave below, not under the guitar's low E unless the singing is. */
export function droneMidi(pitchClass: number, lowestSungMidi: number): number {
  const below = lowestSungMidi - pitchClass;
  const distance = ((below % octaveSemitones) + octaveSemitones) % octaveSemitones;
  const midi = lowestSungMidi - distance;
  return midi < lowestDrone ? midi + octaveSemitones : midi;
}
