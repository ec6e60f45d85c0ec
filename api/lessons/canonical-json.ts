/** The one JSON text of a value: keys in order of their code units, no spaces, what is undefined left out. **Source** the ordering of RFC 8785. */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const pairs = Object.entries(value)
    .filter(([, inner]) => inner !== undefined)
    .sort(([left], [right]) => (left < right ? -1 : 1))
    .map(([key, inner]) => `${JSON.stringify(key)}:${canonicalJson(inner)}`);
  return `{${pairs.join(',')}}`;
}
