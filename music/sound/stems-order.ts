import type { LineId } from '../basis/ids.ts';
import { countInBefore } from '../perform/count-in.ts';
import type { Performance } from '../perform/performance.ts';
import type { ClickSetting } from './clicks.ts';
import type { EngineMix } from './desk.ts';

/** What a stem holds: a line, the notes on no line, or the click. */
export type StemSource = LineId | 'loose' | 'click';

/** What is rendered, and how. */
export interface StemsOrder {
  readonly performance: Performance;
  /** Levels, places, tones and who is heard. */
  readonly mix: EngineMix;
  readonly sampleRate: number;
  /** The tempo as a share of the written one, 0.25 to 1.5. */
  readonly rate: number;
  readonly countInBars: 0 | 1 | 2;
  /** The click after the count-in. */
  readonly click: ClickSetting;
}

const tailSeconds = 2;

/** The sources that can be heard in a mix. */
export function audibleSources({ performance, mix, countInBars, click }: StemsOrder): readonly StemSource[] {
  const isAudible = (line: LineId): boolean => mix.lines.find((each) => each.line === line)?.mix.isAudible ?? true;
  const hasLoose = mix.loose.isAudible && performance.events.some(({ line }) => line === null);
  return [
    ...performance.lines.filter(isAudible),
    ...(hasLoose ? (['loose'] as const) : []),
    ...(click.isOn || countInBars > 0 ? (['click'] as const) : []),
  ];
}

/** How long a rendering is, with its count-in before and its tail after. **Units** seconds. */
export function renderedSeconds({
  performance,
  rate,
  countInBars,
}: Pick<StemsOrder, 'performance' | 'rate' | 'countInBars'>): number {
  const countInSeconds = countInBars === 0 ? 0 : countInBefore(performance, 0, countInBars).lengthSeconds;
  return (countInSeconds + performance.lengthSeconds) / rate + tailSeconds;
}
