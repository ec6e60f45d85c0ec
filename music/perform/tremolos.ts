/** No hand strikes a string quicker. **Units** strokes a second. From memory, no source. */
const quickestRate = 16;

interface TremoloNote {
  readonly ticksPerQuarter: number;
  readonly lengthTicks: number;
  readonly seconds: number;
}

/** The plain value that a note shorter than a quarter is written in, which dots make longer and tuplets shorter; a quarter for longer ones. **Units** ticks. */
function plainValue({ lengthTicks, ticksPerQuarter }: TremoloNote): number {
  let value = ticksPerQuarter;
  const isDottedHalf = (): boolean => lengthTicks * 4 === value * 3 || lengthTicks * 8 === value * 7;
  while (lengthTicks * 3 < value * 2 || isDottedHalf()) value /= 2;
  return value;
}

/** How often a tremolo strikes its note: each stroke halves what the note is made of, quarters or its own value where that is shorter; as often as a hand can, at the most. */
export function tremoloStrikes(strokes: number, note: TremoloNote): number {
  const value = plainValue(note);
  const written = Math.round((Math.max(note.lengthTicks, value) / value) * 2 ** strokes);
  return Math.max(1, Math.min(written, Math.floor(note.seconds * quickestRate + 1e-9)));
}
