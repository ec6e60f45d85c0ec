import type { Part, Retuning } from '../../score/score.ts';
import { firstHead, type Chain } from './chains.ts';
import type { RawStrings } from './raw-part.ts';

/** When the strings of a part are tuned anew or its capo moves: at the first note that is read so. **Source** MusicXML 4.0, staff-details. */
export function retuningsOf(
  chains: readonly Chain[],
  { tuning, capoFret }: Pick<Part, 'tuning' | 'capoFret'>,
): readonly Retuning[] {
  const retunings: Retuning[] = [];
  let before: RawStrings | null = null;
  for (const chain of [...chains].sort((a, b) => a.onsetTicks - b.onsetTicks)) {
    const { strings } = firstHead(chain);
    if (strings === before || strings === null) continue;
    before = strings;
    const now = { tuning: strings.tuning ?? tuning, capoFret: strings.capoFret ?? capoFret };
    const last = retunings.at(-1) ?? { tuning, capoFret };
    const isNew = now.tuning?.join() !== last.tuning?.join() || now.capoFret !== last.capoFret;
    if (now.tuning !== null && isNew)
      retunings.push({ onsetTicks: chain.onsetTicks, tuning: now.tuning, capoFret: now.capoFret });
  }
  return retunings;
}
