import type { NamedMix } from '../../contract/index.ts';
import { plainSetting, type Line, type LineId, type LineSetting } from '../../music/index.ts';
import { namedMixOf } from './named-mixes.ts';

/** Above so many lines the pairs would crowd out everything else. */
const mostPaired = 4;

interface Wanted {
  readonly name: string;
  readonly heard: readonly Line[] | 'everybody';
  readonly forward: LineId | null;
}

const pairsOf = (lines: readonly Line[]): readonly (readonly [Line, Line])[] =>
  lines.flatMap((line, index) => lines.slice(index + 1).map((other) => [line, other] as const));

function wantedOf(lines: readonly Line[]): readonly Wanted[] {
  const everybody: Wanted = { name: 'Everybody', heard: 'everybody', forward: null };
  if (lines.length < 2) return [everybody];
  const alone = lines.map((line): Wanted => ({ name: `${line.name} alone`, heard: [line], forward: null }));
  const paired = lines.length < 3 || lines.length > mostPaired ? [] : pairsOf(lines);
  const pairs = paired.map(([one, other]): Wanted => ({
    name: `${one.name} and ${other.name.toLowerCase()}`,
    heard: [one, other],
    forward: null,
  }));
  const melody = lines.find(({ role }) => role === 'melody');
  const forward: Wanted[] =
    melody === undefined ? [] : [{ name: `${melody.name} forward`, heard: 'everybody', forward: melody.id }];
  return [everybody, ...forward, ...alone, ...pairs];
}

/** The mixes that a split suggests: everybody, the melody forward, each line alone, and pairs where they are few. */
export function offeredMixes(lines: readonly Line[], newId: () => string): readonly NamedMix[] {
  const ids = lines.map(({ id }) => id);
  return wantedOf(lines).map(({ name, heard, forward }) => {
    const solo: LineSetting = { ...plainSetting, isSolo: true };
    const settings = new Map(heard === 'everybody' ? [] : heard.map(({ id }) => [id, solo] as const));
    return namedMixOf(newId(), name.slice(0, 60), { settings, forward, lifted: new Set() }, ids);
  });
}

/** Those of the offered mixes whose name is not taken. */
export function newlyOffered(offered: readonly NamedMix[], known: readonly NamedMix[]): readonly NamedMix[] {
  const taken = new Set(known.map(({ name }) => name.toLowerCase()));
  return offered.filter(({ name }) => !taken.has(name.toLowerCase()));
}
