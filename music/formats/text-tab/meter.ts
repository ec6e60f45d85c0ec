/** A meter of plain beats. */
export interface TabMeter {
  readonly beats: number;
  readonly beatUnit: number;
}

/** The finest division of time of what is read from text. **Units** divisions of a quarter note. */
export const divisions = 96;

/** The length of a bar. **Units** divisions. */
export const barLength = ({ beats, beatUnit }: TabMeter): number => (beats * 4 * divisions) / beatUnit;

/** Whether the beats are dotted: 6/8, 9/8, 12/8 and their like. **Source** common practice, no source. */
export const isCompound = ({ beats, beatUnit }: TabMeter): boolean => beatUnit >= 8 && beats % 3 === 0 && beats > 3;

/** The length of a beat as it is counted. **Units** divisions. */
export const beatLength = (meter: TabMeter): number => ((isCompound(meter) ? 3 : 1) * 4 * divisions) / meter.beatUnit;

/** The meter that a text names, or null. */
export function meterOfText(text: string): TabMeter | null {
  const [, beats, unit] = /^(\d{1,2})\s?\/\s?(2|4|8|16)$/.exec(text.trim()) ?? [];
  const count = Number(beats);
  return count >= 1 && count <= 32 ? { beats: count, beatUnit: Number(unit) } : null;
}
