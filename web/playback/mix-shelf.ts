import { mixNamed, type NamedMix } from '../../contract/index.ts';

type Mixes = readonly NamedMix[];

/** The mixes with one more, or with this one in place of the one that has its name. */
export function withMix(mixes: Mixes, mix: NamedMix): NamedMix[] {
  const known = mixNamed(mixes, mix.name);
  if (known === undefined) return [...mixes, mix];
  return mixes.map((each) => (each === known ? { ...mix, id: known.id } : each));
}

export const withoutMix = (mixes: Mixes, id: string): NamedMix[] => mixes.filter((mix) => mix.id !== id);

/** Whether another mix has this name. */
export function isNameTaken(mixes: Mixes, id: string, name: string): boolean {
  const known = mixNamed(mixes, name);
  return known !== undefined && known.id !== id;
}

/** The mixes with one called otherwise, unless another has that name already. */
export function withName(mixes: Mixes, id: string, name: string): NamedMix[] {
  if (isNameTaken(mixes, id, name)) return [...mixes];
  return mixes.map((mix) => (mix.id === id ? { ...mix, name: name.trim() } : mix));
}
