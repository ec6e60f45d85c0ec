/** One note as the splitter sees it. **Units** ticks, whole numbers; MIDI note numbers. */
export interface VoiceNote {
  readonly onsetTicks: number;
  readonly lengthTicks: number;
  readonly midi: number;
  /** String of the fingerboard, 1 the highest: soft evidence. */
  readonly string?: number | undefined;
  /** Which voice the source wrote it in, in any naming: soft evidence. */
  readonly sourceVoice?: string | undefined;
  readonly stem?: 'up' | 'down' | undefined;
  /** The plucking finger; `p` is the thumb. */
  readonly finger?: 'p' | 'i' | 'm' | 'a' | 'c' | undefined;
  readonly letRing?: boolean | undefined;
}

/** What the splitter may be told beside the notes. */
export interface SeparateOptions {
  readonly ticksPerQuarter: number;
  /** How many lines to split into, 1 to 8; found from the music where absent. */
  readonly lineCount?: number | undefined;
  /** Notes that a person has marked: index of the note → its label, one of the unaided answer's or a further one. */
  readonly pins?: ReadonlyMap<number, number> | undefined;
  /** With pins: the label that each note has now, which stays where nothing speaks against it; that of the unaided answer where absent or −1. **Shape** one label per note. */
  readonly present?: readonly number[] | undefined;
  /** Where the meter changes; bars are told apart by it when repeats are looked for. */
  readonly meters?: readonly MeterChange[] | undefined;
}

/** A meter from its onset on. */
export interface MeterChange {
  readonly onsetTicks: number;
  readonly beats: number;
  readonly beatUnit: number;
}

/** The lines found. **Shape** one label and one confidence per note, in the order of the input. */
export interface Separation {
  /** Without pins, 0 is the highest line. */
  readonly labels: readonly number[];
  /** 0 to 1: how sure it is that the note is on no other line. */
  readonly confidences: readonly number[];
  readonly lineCount: number;
  /** The labels from the highest line down. */
  readonly order: readonly number[];
}
