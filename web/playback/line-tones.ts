import { audibleLines, type Line, type LineId } from '../../music/index.ts';
import type { EyeTone } from '../ui/eye-tone.ts';
import type { HeardMix } from './named-mixes.ts';

type Heard = Pick<HeardMix, 'settings' | 'forward'>;

/** How each line is heard beside the others: silent; forward; faint where it is softer than usual, or another is forward; else plain. */
export function lineTones(lines: readonly LineId[], heard: Heard): ReadonlyMap<LineId, EyeTone> {
  const audible = new Set(audibleLines(lines, heard.settings));
  return new Map(lines.map((line) => [line, audible.has(line) ? audibleTone(line, heard) : 'silent']));
}

function audibleTone(line: LineId, { settings, forward }: Heard): EyeTone {
  if (forward !== null) return forward === line ? 'forward' : 'faint';
  return (settings.get(line)?.levelDb ?? 0) < 0 ? 'faint' : 'plain';
}

/** Who is heard otherwise than plainly, in one sentence, for those who do not see the eyes. */
export function heardWords(lines: readonly Pick<Line, 'id' | 'name'>[], { settings, forward }: Heard): string {
  const told = lines.flatMap(({ id, name }) => {
    const setting = settings.get(id);
    const words = [
      setting?.isSolo === true ? 'solo' : [],
      setting?.isMuted === true ? 'muted' : [],
      forward === id ? 'forward' : [],
    ].flat();
    return words.length === 0 ? [] : [`${name} ${words.join(' and ')}`];
  });
  return told.length === 0 ? 'Every line is heard' : told.join(', ');
}
