import { exactPow } from '../basis/exact-math.ts';
import type { LineId } from '../basis/ids.ts';
import type { Instrument } from '../perform/performance.ts';
import { plainMix, type ChannelMix } from './channel.ts';
import type { EngineMix } from './desk.ts';
import { powersAtTone, type LinePowers } from './line-powers.ts';
import { loudnessOfBlocks } from './loudness.ts';

/** What a person sets for one line. */
export interface LineSetting {
  readonly levelDb: number;
  /** −1 (left) to 1 (right). */
  readonly place: number;
  /** −1 (dark) to 1 (bright). */
  readonly tone: number;
  readonly isSolo: boolean;
  readonly isMuted: boolean;
  /** What it is played with; null for its usual instrument. It is heard once the music is performed anew. */
  readonly instrument: Instrument | null;
}

/** A line that nobody has touched. */
export const plainSetting: LineSetting = {
  levelDb: 0,
  place: 0,
  tone: 0,
  isSolo: false,
  isMuted: false,
  instrument: null,
};

/** A line's setting with its line, as mixes are kept; without an instrument it is played with its usual one. */
export interface MixedLine extends Omit<LineSetting, 'instrument'> {
  readonly line: LineId;
  readonly instrument?: Instrument | undefined;
}

/** The settings of a kept mix, by line. */
export const settingsOfLines = (lines: readonly MixedLine[]): ReadonlyMap<LineId, LineSetting> =>
  new Map(
    lines.map(
      ({ line, levelDb, tone, place, isSolo, isMuted, instrument }) =>
        [line, { levelDb, tone, place, isSolo, isMuted, instrument: instrument ?? null }] as const,
    ),
  );

/** How far a line that is brought forward comes up, and how far the others go back. **Units** decibels. */
const forwardDb = 3;
const backDb = -6;
const silentDb = -60;

interface Source {
  readonly line: LineId | null;
  readonly mix: ChannelMix;
  readonly shiftDb: number;
}

const powerOf = (levelDb: number): number => exactPow(10, levelDb / 10);

/** The loudness of everybody heard together, by the powers of each alone; −Infinity where nothing is known. **Units** LUFS. */
function loudnessOf(sources: readonly Source[], powers: LinePowers, isShifted: boolean): number {
  const sum: number[] = [];
  for (const { line, mix, shiftDb } of sources) {
    if (!mix.isAudible) continue;
    const gain = powerOf(mix.levelDb + (isShifted ? shiftDb : 0));
    const own = line === null ? powers.loose : powers.lines.get(line);
    if (own === undefined) continue;
    for (const [block, power] of powersAtTone(own, mix.tone).entries()) sum[block] = (sum[block] ?? 0) + gain * power;
  }
  return loudnessOfBlocks(sum);
}

/** What must be added to every level so that the whole is as loud with the shifts as without them. **Units** decibels. */
function makeUpDb(sources: readonly Source[], powers: LinePowers | null): number {
  if (powers === null) return 0;
  const makeUp = loudnessOf(sources, powers, false) - loudnessOf(sources, powers, true);
  return Number.isFinite(makeUp) ? makeUp : 0;
}

/**
 * The engine's mix: solo before mute, one line forward if any, at the same loudness once the lines' powers are known;
 * notes on no line sound only while no line is soloed.
 */
export function engineMixOf(
  lines: readonly LineId[],
  settings: ReadonlyMap<LineId, LineSetting>,
  forward: LineId | null,
  powers: LinePowers | null = null,
): EngineMix {
  const hasSolo = lines.some((line) => settings.get(line)?.isSolo === true);
  const hasForward = forward !== null && lines.includes(forward);
  const shiftOf = (line: LineId | null): number => (hasForward ? (line === forward ? forwardDb : backDb) : 0);
  const sources: readonly Source[] = [...lines, null].map((line) => {
    const setting = (line === null ? undefined : settings.get(line)) ?? plainSetting;
    const isAudible = !setting.isMuted && (!hasSolo || setting.isSolo) && setting.levelDb > silentDb;
    return {
      line,
      shiftDb: shiftOf(line),
      mix: { ...plainMix, levelDb: setting.levelDb, place: setting.place, tone: setting.tone, isAudible },
    };
  });
  const makeUp = hasForward ? makeUpDb(sources, powers) : 0;
  const finished = ({ mix, shiftDb }: Source): ChannelMix => ({ ...mix, levelDb: mix.levelDb + shiftDb + makeUp });
  return {
    lines: sources.flatMap((source) => (source.line === null ? [] : [{ line: source.line, mix: finished(source) }])),
    loose: sources.filter(({ line }) => line === null).map(finished)[0] ?? plainMix,
  };
}

/** The instruments that lines are given, for performing them. */
export const instrumentsOf = (settings: ReadonlyMap<LineId, LineSetting>): ReadonlyMap<LineId, Instrument> =>
  new Map(
    [...settings].flatMap(([line, { instrument }]) => (instrument === null ? [] : [[line, instrument] as const])),
  );

/** The lines that can be heard, told from what is set; solo comes before mute. */
export function audibleLines(lines: readonly LineId[], settings: ReadonlyMap<LineId, LineSetting>): readonly LineId[] {
  const hasSolo = lines.some((line) => settings.get(line)?.isSolo === true);
  return lines.filter((line) => {
    const setting = settings.get(line);
    return setting === undefined ? !hasSolo : !setting.isMuted && (!hasSolo || setting.isSolo);
  });
}
