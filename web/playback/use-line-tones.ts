import { useMemo } from 'react';
import type { LineId } from '../../music/index.ts';
import type { EyeTone } from '../ui/eye-tone.ts';
import { lineTones } from './line-tones.ts';
import type { PlayerSnapshot } from './player-snapshot.ts';

/** How each line is heard; the same map for as long as nothing of it changes. */
export function useLineTones(
  lines: readonly LineId[],
  { settings, forward }: Pick<PlayerSnapshot, 'settings' | 'forward'>,
): ReadonlyMap<LineId, EyeTone> {
  return useMemo(() => lineTones(lines, { settings, forward }), [lines, settings, forward]);
}
