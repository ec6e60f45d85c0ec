import { octavesOfMiddle, type AbcClef, type AbcStaffing } from './abc-clefs.ts';

type Said = { -readonly [Key in Exclude<keyof AbcStaffing, 'unread'>]: AbcStaffing[Key] };

/** The staff of one voice: its clef, and how far its letters stand and sound from where they are. */
export class VoiceStaff {
  private readonly said: Said = { clef: null, octaves: null, transpose: null, middleSteps: null };

  /** Takes in what is said; as a default only what is not said yet. */
  take({ clef, octaves, transpose, middleSteps }: AbcStaffing, isDefault: boolean): void {
    const { said } = this;
    const isOpen = (value: unknown): boolean => !isDefault || value === null;
    // Another clef has a middle line of its own.
    if (middleSteps !== null || clef !== null) if (isOpen(said.middleSteps)) said.middleSteps = middleSteps;
    if (clef !== null && isOpen(said.clef)) said.clef = clef;
    if (octaves !== null && isOpen(said.octaves)) said.octaves = octaves;
    if (transpose !== null && isOpen(said.transpose)) said.transpose = transpose;
  }

  get clef(): AbcClef | null {
    return this.said.clef;
  }

  private get middleOctaves(): number {
    const { middleSteps, clef } = this.said;
    return middleSteps === null ? 0 : (octavesOfMiddle(middleSteps, clef) ?? 0);
  }

  /** Octaves from a letter to where it is printed. */
  get octaves(): number {
    const { octaves, clef } = this.said;
    return (octaves ?? 0) + (clef?.octaves ?? 0) + this.middleOctaves;
  }

  /** Semitones from what is printed to what sounds. */
  get transpose(): number {
    const { transpose } = this.said;
    return transpose === null ? 0 : transpose - 12 * this.middleOctaves;
  }
}
