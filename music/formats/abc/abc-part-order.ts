import { limits } from '../limits.ts';

/** The parts in the order in which they are played, or why a text says none. */
export type PartOrder =
  | { readonly kind: 'order'; readonly parts: readonly string[] }
  | { readonly kind: 'unreadable' }
  | { readonly kind: 'endless' };

/** The last part or bracket again, so often in all. Null where that is more than a tune can hold. */
function repeated(group: readonly string[], last: readonly string[], count: number): string[] | null {
  if (group.length + last.length * (count - 1) > limits.bars) return null;
  return Array.from({ length: count - 1 }).reduce<string[]>((sum) => sum.concat(last), [...group]);
}

/** The order of a P: field: letters, brackets, a number after either for how often, dots only for the eye. **Source** ABC 2.1, P: parts, from memory. */
export function partOrderOf(text: string): PartOrder {
  const groups: string[][] = [[]];
  let last: readonly string[] = [];
  for (const [sign] of text.replace(/[.\s]/g, '').matchAll(/[A-Z()]|\d+|./gsu)) {
    const group = groups.at(-1) ?? [];
    if (sign === '(') {
      groups.push([]);
      last = [];
    } else if (sign === ')') {
      const outer = groups.at(-2);
      if (outer === undefined) return { kind: 'unreadable' };
      groups.pop();
      outer.push(...group);
      last = group;
    } else if (/^\d+$/.test(sign)) {
      if (last.length === 0 || Number(sign) === 0) return { kind: 'unreadable' };
      const longer = repeated(group, last, Number(sign));
      if (longer === null) return { kind: 'endless' };
      groups[groups.length - 1] = longer;
      last = [];
    } else if (/^[A-Z]$/.test(sign)) {
      group.push(sign);
      last = [sign];
    } else return { kind: 'unreadable' };
    if (group.length > limits.bars) return { kind: 'endless' };
  }
  const [parts = []] = groups;
  return groups.length > 1 ? { kind: 'unreadable' } : { kind: 'order', parts };
}
