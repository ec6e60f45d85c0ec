import type { LineId, NoteId } from '../basis/ids.ts';
import type { SoundingNote } from '../score/score.ts';
import type { Player } from './ensembles.ts';

/** The notes of a line that its player cannot sound, and the octaves that would help. */
export interface RangeFinding {
  readonly line: LineId;
  readonly player: string;
  readonly notes: readonly NoteId[];
  /** Octaves up (negative: down) from where the line is now that leave the fewest notes out of range; null where none is better. */
  readonly suggestedOctaves: number | null;
}

/** Near moves before far ones, down before up. */
const moves = [-1, 1, -2, 2, -3, 3, -4, 4];

function outside(notes: readonly SoundingNote[], { lowestMidi, highestMidi }: Player, octaves: number): NoteId[] {
  return notes.flatMap(({ id, sound }) => {
    if (sound.kind === 'hit') return [];
    const midi = sound.soundingMidi + 12 * octaves;
    return midi < lowestMidi || midi > highestMidi ? [id] : [];
  });
}

/** What is out of a player's range in a line that is moved by some octaves; null where nothing is. */
export function rangeFinding(
  line: LineId,
  notes: readonly SoundingNote[],
  player: Player,
  octaves: number,
): RangeFinding | null {
  const beyond = outside(notes, player, octaves);
  if (beyond.length === 0) return null;
  let best: { readonly move: number; readonly left: number } | null = null;
  for (const move of moves) {
    const left = outside(notes, player, octaves + move).length;
    if (left < (best?.left ?? beyond.length)) best = { move, left };
  }
  return { line, player: player.name, notes: beyond, suggestedOctaves: best?.move ?? null };
}
