import { expect, it } from 'vitest';
import { ReleaseContents } from './release-contents.ts';
import type { ReleaseRepository } from './release.repository.ts';

function counted(content: (id: string) => string | null): { contents: ReleaseContents; asked: string[] } {
  const asked: string[] = [];
  const repository: Pick<ReleaseRepository, 'contentOf'> = {
    contentOf: (id) => {
      asked.push(id);
      return Promise.resolve(content(id));
    },
  };
  return { contents: new ReleaseContents(repository as ReleaseRepository), asked };
}

const named = (id: string) => ({ id, contentHash: `hash of ${id}` });

it('asks the database once for what is read often, and gives its very bytes', async () => {
  const { contents, asked } = counted(() => '{"title":"Lütt"}');
  const first = await contents.of(named('one'));
  expect(first?.toString()).toBe('{"title":"Lütt"}');
  expect(await contents.of(named('one'))).toBe(first);
  expect(asked).toEqual(['one']);
});

it('keeps no more than 64 MB, and lets go of what was not read for longest', async () => {
  const large = 'x'.repeat(25 * 1024 * 1024);
  const { contents, asked } = counted(() => large);
  for (const id of ['one', 'two', 'one', 'three', 'one', 'two']) await contents.of(named(id));
  expect(asked).toEqual(['one', 'two', 'three', 'two']);
});

it('remembers nothing of what is not there', async () => {
  const { contents, asked } = counted(() => null);
  expect(await contents.of(named('gone'))).toBeNull();
  expect(await contents.of(named('gone'))).toBeNull();
  expect(asked).toEqual(['gone', 'gone']);
});
