const UNSTORABLE = /[\0\p{Surrogate}]/u;

/** Whether no text within is one that Postgres cannot keep as it is: none with a null character, none with half of a surrogate pair. **Source** PostgreSQL 18, 8.3 and 8.14. */
export function isStorable(value: unknown): boolean {
  const waiting: unknown[] = [value];
  while (waiting.length > 0) {
    const next = waiting.pop();
    if (typeof next === 'string' && UNSTORABLE.test(next)) return false;
    if (typeof next === 'object' && next !== null) for (const inner of Object.values(next)) waiting.push(inner);
  }
  return true;
}
