import type { NamedMix } from '../../contract/index.ts';
import { plainSetting, settingsOfLines, type LineId, type LineSetting } from '../../music/index.ts';

/** A mix as it is heard and seen: what is set for each line, who is forward, who is lifted. */
export interface HeardMix {
  readonly settings: ReadonlyMap<LineId, LineSetting>;
  readonly forward: LineId | null;
  readonly lifted: ReadonlySet<LineId>;
}

/** A named mix for the lines that are there, with how many of its lines are gone. */
export interface FoundMix {
  readonly heard: HeardMix;
  readonly goneCount: number;
}

/** What a named mix means for these lines; a line that it does not tell of is plain. */
export function foundMix(mix: NamedMix, lines: readonly LineId[]): FoundMix {
  const known = mix.lines.filter(({ line }) => lines.includes(line));
  const isForwardHere = mix.forward !== null && lines.includes(mix.forward);
  const gone = new Set([...mix.lines.map(({ line }) => line), ...(mix.forward === null ? [] : [mix.forward])]);
  for (const line of lines) gone.delete(line);
  return {
    heard: {
      settings: settingsOfLines(known),
      forward: isForwardHere ? mix.forward : null,
      lifted: new Set(known.flatMap(({ line, isLifted }) => (isLifted === true ? [line] : []))),
    },
    goneCount: gone.size,
  };
}

/** The present mix under a name; lines that are plain are not told of. */
export function namedMixOf(id: string, name: string, heard: HeardMix, lines: readonly LineId[]): NamedMix {
  const told = lines.flatMap((line): NamedMix['lines'] => {
    const { instrument, ...setting } = heard.settings.get(line) ?? plainSetting;
    const isLifted = heard.lifted.has(line);
    if (!isLifted && instrument === null && isPlain(setting)) return [];
    const own = { line, ...setting, ...(instrument === null ? {} : { instrument }) };
    return [isLifted ? { ...own, isLifted } : own];
  });
  const isForwardHere = heard.forward !== null && lines.includes(heard.forward);
  return { id, name, lines: told, forward: isForwardHere ? heard.forward : null };
}

/** A named mix that sounds otherwise from now on; what it tells of lines that are gone stays. */
export function withHeard(mix: NamedMix, heard: HeardMix, lines: readonly LineId[]): NamedMix {
  const changed = namedMixOf(mix.id, mix.name, heard, lines);
  return { ...changed, lines: [...changed.lines, ...mix.lines.filter(({ line }) => !lines.includes(line))] };
}

const isPlain = ({ levelDb, tone, place, isSolo, isMuted }: Omit<LineSetting, 'instrument'>): boolean =>
  levelDb === 0 && tone === 0 && place === 0 && !isSolo && !isMuted;

/** Whether two mixes sound and look the same for these lines, whatever they are called. */
export function isSameMix(one: HeardMix, other: HeardMix, lines: readonly LineId[]): boolean {
  const bare = (mix: HeardMix): string => {
    const { forward, lines: told } = namedMixOf('same', 'same', mix, lines);
    return JSON.stringify([forward, told.map((each) => Object.entries(each).sort(([a], [b]) => (a < b ? -1 : 1)))]);
  };
  return bare(one) === bare(other);
}
