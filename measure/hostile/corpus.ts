import { byteMutations } from './byte-mutations.ts';
import { drawOf, type Draw } from './draw.ts';
import { abcMutations, tabMutations } from './line-mutations.ts';
import { midiMutations } from './midi-mutations.ts';
import type { Mutation } from './mutation.ts';
import type { Source } from './sources.ts';
import { xmlMutations } from './xml-mutations.ts';
import { zipMutations } from './zip-mutations.ts';

/** A broken file, named by what was done to it: the same seed gives the same. */
export interface HostileFile {
  readonly name: string;
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

const mutationsOf: Readonly<Record<Source['kind'], readonly Mutation[]>> = {
  xml: [...xmlMutations, ...xmlMutations, ...byteMutations, ...zipMutations],
  midi: [...midiMutations, ...byteMutations],
  abc: [...abcMutations, ...byteMutations],
  tab: [...tabMutations, ...byteMutations],
};

/** Half of all files are MusicXML, whatever the number of sources. */
function pickSource(sources: readonly Source[], seed: number): Source {
  const draw = drawOf(seed * 2 + 1);
  const isXml = draw.below(2) === 0;
  const chosen = sources.filter(({ kind }) => (kind === 'xml') === isXml);
  return draw.pick(chosen.length === 0 ? sources : chosen);
}

interface Plan {
  readonly name: string;
  readonly source: Source;
  readonly mutations: readonly Mutation[];
  readonly draw: Draw;
}

function pickMutation(kind: Source['kind'], draw: Draw): Mutation {
  const first = draw.pick(mutationsOf[kind]);
  return first.isHeavy === true && draw.below(8) > 0
    ? draw.pick(mutationsOf[kind].filter((one) => !one.isHeavy))
    : first;
}

/** One source, broken once, sometimes twice. */
function planOf(sources: readonly Source[], seed: number): Plan {
  const source = pickSource(sources, seed);
  const draw = drawOf(seed * 2);
  const first = pickMutation(source.kind, draw);
  const mutations = draw.below(4) === 0 ? [first, draw.pick(byteMutations)] : [first];
  const name = `seed ${seed}: ${source.name}, ${mutations.map((mutation) => mutation.name).join(', ')}`;
  return { name, source, mutations, draw };
}

/** The broken file of a seed. */
export function hostileFile(sources: readonly Source[], seed: number): HostileFile {
  const { name, source, mutations, draw } = planOf(sources, seed);
  let { bytes } = source;
  for (const mutation of mutations) if (bytes.byteLength > 0) bytes = mutation.apply(bytes, draw);
  return { name, fileName: source.name, bytes };
}

/** What is done to the file of a seed, without doing it. */
export const nameOfHostileFile = (sources: readonly Source[], seed: number): string => planOf(sources, seed).name;

/** The names of all ways in which files are broken. */
export const mutationNames: readonly string[] = [
  ...new Set(
    Object.values(mutationsOf)
      .flat()
      .map(({ name }) => name),
  ),
];
