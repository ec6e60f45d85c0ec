import type { Key } from '../../score/score.ts';

/** A value that holds from a moment on. **Units** ticks of the song. */
export interface SongChange<Value> {
  readonly ticks: number;
  readonly value: Value;
}

/** One note of a track. */
export interface SongNote {
  readonly startTicks: number;
  readonly lengthTicks: number;
  /** A pitch, or a percussion key on a percussion track. */
  readonly midi: number;
  /** How hard it is struck, from 1 to 127. */
  readonly velocity: number;
}

/** One track, named. */
export interface SongTrack {
  readonly name: string;
  /** A General MIDI program, from 0. */
  readonly program: number;
  readonly notes: readonly SongNote[];
  /** Struck on the channel that General MIDI keeps for percussion. */
  readonly hits: readonly SongNote[];
  readonly lyrics: readonly SongChange<string>[];
}

/** A song as a MIDI file holds it: plain data, in the order of playing. */
export interface MidiSong {
  readonly title: string;
  /** From 1 to 32,767. */
  readonly ticksPerQuarter: number;
  readonly lengthTicks: number;
  /** **Units** quarter notes a minute. */
  readonly tempos: readonly SongChange<number>[];
  /** A whole number over a power of two, as it counts from its moment on. */
  readonly meters: readonly SongChange<{ readonly beats: number; readonly beatUnit: number }>[];
  readonly keys: readonly SongChange<Key>[];
  readonly markers: readonly SongChange<string>[];
  readonly tracks: readonly SongTrack[];
}

/** The guitars of the sound set that lines are given, from 0. **Source** General MIDI Level 1 sound set: 25 acoustic guitar (nylon), 26 acoustic guitar (steel), 33 acoustic bass, counted from 1. */
export const guitarPrograms = { nylon: 24, steel: 25 } as const;
