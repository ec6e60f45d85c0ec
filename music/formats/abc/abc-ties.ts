import type { Pitch } from '../../basis/pitch.ts';
import type { AbcNote } from './abc-events.ts';

const keyOf = ({ step, octave }: Pick<Pitch, 'step' | 'octave'>): string => `${step}${octave}`;

/** The ties of one voice that wait for their second note; what is laid over a voice has ties of its own. */
export class OpenTies {
  private readonly byLayer = new Map<number, ReadonlyMap<string, AbcNote>>();

  /** The alteration that a tie brings to a note; null where none comes. */
  alterAt(layer: number, step: Pitch['step'], octave: number): number | null {
    return this.byLayer.get(layer)?.get(keyOf({ step, octave }))?.pitch.alter ?? null;
  }

  /** Joins notes to those that are tied to them; of the open ties only theirs go on. */
  join(layer: number, notes: readonly AbcNote[]): void {
    if (notes.length === 0) return;
    const before = this.byLayer.get(layer);
    const still = new Map<string, AbcNote>();
    for (const note of notes) {
      note.isTiedFromBefore = before?.get(keyOf(note.pitch))?.pitch.alter === note.pitch.alter;
      if (note.isTiedOn) still.set(keyOf(note.pitch), note);
    }
    this.byLayer.set(layer, still);
  }
}
