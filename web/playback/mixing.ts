import { plainMix, type ChannelMix, type EngineMix, type LineId } from '../../music/index.ts';

/** What a person sets for one line. */
export interface LineSetting {
  readonly levelDb: number;
  /** −1 (left) to 1 (right). */
  readonly place: number;
  /** −1 (dark) to 1 (bright). */
  readonly tone: number;
  readonly isSolo: boolean;
  readonly isMuted: boolean;
}

/** A line that nobody has touched. */
export const plainSetting: LineSetting = { levelDb: 0, place: 0, tone: 0, isSolo: false, isMuted: false };

/** How far a line that is brought forward comes up, and how far the others go back. **Units** decibels. */
const forwardDb = 3;
const backDb = -6;

/** The engine's mix: solo before mute, one line forward if any; notes on no line sound only while no line is soloed. */
export function engineMixOf(
  lines: readonly LineId[],
  settings: ReadonlyMap<LineId, LineSetting>,
  forward: LineId | null,
): EngineMix {
  const hasSolo = lines.some((line) => settings.get(line)?.isSolo === true);
  const hasForward = forward !== null && lines.includes(forward);
  const shift = (line: LineId | null): number => (hasForward ? (line === forward ? forwardDb : backDb) : 0);
  const mixOf = (line: LineId): ChannelMix => {
    const setting = settings.get(line) ?? plainSetting;
    return {
      levelDb: setting.levelDb + shift(line),
      place: setting.place,
      tone: setting.tone,
      isAudible: !setting.isMuted && (!hasSolo || setting.isSolo) && setting.levelDb > -60,
    };
  };
  return {
    lines: lines.map((line) => ({ line, mix: mixOf(line) })),
    loose: { ...plainMix, levelDb: shift(null), isAudible: !hasSolo },
  };
}
