import { afterEach, describe, expect, it, vi } from 'vitest';
import { KeptDocument } from './kept-document.ts';
import { RequestFailed } from './problem.ts';

type Words = readonly string[];
const adding = (word: string) => (words: Words) => [...words, word];

/** A server that counts versions and can be out of reach. */
function world(start: Words) {
  let server: { body: Words; etag: string } = { body: start, etag: '0' };
  let failure: RequestFailed | null = null;
  const seen: Words[] = [];
  const answer = <Value>(value: () => Value): Promise<Value> =>
    failure === null ? Promise.resolve().then(value) : Promise.reject(failure);
  const replace = (body: Words) => {
    server = { body, etag: String(Number(server.etag) + 1) };
    return server;
  };
  const kept = new KeptDocument<Words>({
    fetch: () => answer(() => server),
    save: (body, etag) =>
      answer(() => {
        if (etag !== server.etag) throw new RequestFailed('changed-meanwhile', 'Somebody was quicker.');
        return replace(body);
      }),
  });
  kept.subscribe(() => seen.push(kept.getSnapshot().document ?? []));
  const saves = () => Number(server.etag);
  return {
    kept,
    replace,
    saves,
    server: () => server.body,
    seen,
    fail: (reason: RequestFailed | null) => (failure = reason),
  };
}

afterEach(() => void vi.useRealTimers());

describe('a kept document', () => {
  it('shows what is dragged at once and keeps it in one once it rests', async () => {
    vi.useFakeTimers();
    const { kept, server, seen, saves } = world([]);
    await kept.load();
    for (const word of ['a', 'b', 'c']) {
      kept.changeAtRest(adding(word));
      await vi.advanceTimersByTimeAsync(100);
    }
    expect([seen.at(-1), server(), saves()]).toEqual([['a', 'b', 'c'], [], 0]);
    await vi.advanceTimersByTimeAsync(1000);
    expect([server(), saves(), kept.getSnapshot().isSaving]).toEqual([['a', 'b', 'c'], 1, false]);
  });

  it('keeps what is still moving when it is asked to', async () => {
    vi.useFakeTimers();
    const { kept, server, saves } = world([]);
    await kept.load();
    kept.changeAtRest(adding('a'));
    await kept.load();
    await vi.advanceTimersByTimeAsync(1000);
    expect([server(), saves()]).toEqual([['a'], 1]);
  });

  it('shows a change at once and keeps it', async () => {
    const { kept, server, seen } = world(['a']);
    await kept.load();
    const keeping = kept.change(adding('b'));
    expect(seen.at(-1)).toEqual(['a', 'b']);
    expect(kept.getSnapshot().isSaving).toBe(true);
    await keeping;
    expect([server(), kept.getSnapshot()]).toEqual([
      ['a', 'b'],
      { document: ['a', 'b'], isSaving: false, trouble: null },
    ]);
  });

  it('keeps changes that are made while it saves, in their order', async () => {
    const { kept, server } = world([]);
    await Promise.all([kept.change(adding('a')), kept.change(adding('b')), kept.change(adding('c'))]);
    expect(server()).toEqual(['a', 'b', 'c']);
  });

  it('makes its change on what somebody else kept meanwhile, so that neither is lost', async () => {
    const { kept, replace, server } = world(['a']);
    await kept.load();
    replace(['a', 'theirs']);
    await kept.change(adding('mine'));
    expect(server()).toEqual(['a', 'theirs', 'mine']);
    expect(kept.getSnapshot()).toMatchObject({ document: ['a', 'theirs', 'mine'], trouble: null });
  });

  it('holds a change that could not be kept, says so, and keeps it with the next try', async () => {
    const { kept, server, fail } = world(['a']);
    await kept.load();
    fail(new RequestFailed('offline', 'Out of reach.'));
    await kept.change(adding('b'));
    expect(kept.getSnapshot()).toEqual({ document: ['a', 'b'], isSaving: false, trouble: 'Out of reach.' });
    fail(null);
    await kept.load();
    expect([server(), kept.getSnapshot().trouble]).toEqual([['a', 'b'], null]);
  });

  it('lets go of a change that the server cannot take, and says why', async () => {
    const { kept, fail, server } = world(['a']);
    await kept.load();
    fail(new RequestFailed('body-invalid', 'Too many.'));
    await kept.change(adding('b'));
    expect(kept.getSnapshot()).toEqual({ document: ['a'], isSaving: false, trouble: 'Too many.' });
    fail(null);
    await kept.change(adding('c'));
    expect(server()).toEqual(['a', 'c']);
  });
});
