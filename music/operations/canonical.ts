import type { Submission } from './operation.ts';

function canonicalText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalText).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const pairs = Object.entries(value)
    .filter(([, inner]) => inner !== undefined)
    .sort(([left], [right]) => (left < right ? -1 : 1));
  return `{${pairs.map(([key, inner]) => `${JSON.stringify(key)}:${canonicalText(inner)}`).join(',')}}`;
}

/** Whether two submissions say the same, whatever the order of their keys: a store may have reordered them. */
export const isSameSubmission = (left: Submission, right: Submission): boolean =>
  left === right || canonicalText(submitted(left)) === canonicalText(submitted(right));

const submitted = ({ id, baseRevision, operation }: Submission): Submission => ({ id, baseRevision, operation });
