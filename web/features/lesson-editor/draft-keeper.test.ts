import { describe, expect, it } from 'vitest';
import type { LessonText } from '../../lib/api/lessons.ts';
import { RequestFailed } from '../../lib/api/problem.ts';
import { DraftKeeper, type VersionedText } from './draft-keeper.ts';

const textOf = (title: string, ...texts: readonly string[]): LessonText => ({
  title,
  steps: texts.map((text, index) => ({ kind: 'text', id: `s${index + 1}`, text })),
});

/** A server that counts versions, a clock that the test turns, a drawer for unsaved drafts. */
function world(start: LessonText) {
  let server: VersionedText = { text: start, etag: '1' };
  let failure: RequestFailed | null = null;
  const due: (() => void)[] = [];
  const drawer: { kept: VersionedText | null } = { kept: null };
  const setup = {
    save: (text: LessonText, etag: string) => {
      if (failure !== null) return Promise.reject(failure);
      if (etag !== server.etag) return Promise.reject(new RequestFailed('changed-meanwhile', 'Somebody else saved.'));
      server = { text, etag: String(Number(etag) + 1) };
      return Promise.resolve(server);
    },
    fetch: () => Promise.resolve(server),
    keepLocally: (draft: VersionedText | null) => {
      drawer.kept = draft;
    },
    later: (deed: () => void) => {
      due.push(deed);
      return () => {
        const place = due.indexOf(deed);
        if (place >= 0) due.splice(place, 1);
      };
    },
  };
  return {
    setup,
    drawer,
    server: () => server,
    saveElsewhere: (text: LessonText) => {
      server = { text, etag: String(Number(server.etag) + 1) };
    },
    fail: (code: 'offline' | null) => {
      failure = code === null ? null : new RequestFailed(code, 'out of reach');
    },
    turnClock: async () => {
      for (const deed of due.splice(0)) deed();
      await new Promise((resolve) => setImmediate(resolve));
    },
  };
}

const rename = (title: string) => (text: LessonText) => ({ ...text, title });

describe('a draft', () => {
  it('is saved once after several changes', async () => {
    const { setup, server, turnClock, drawer } = world(textOf('One'));
    const keeper = new DraftKeeper(server(), setup);
    keeper.edit(rename('Two'));
    keeper.edit(rename('Three'));
    expect(drawer.kept?.text.title).toBe('Three');
    expect(keeper.getSnapshot().save.kind).toBe('saving');
    await turnClock();
    expect(server()).toEqual({ text: textOf('Three'), etag: '2' });
    expect(keeper.getSnapshot().save.kind).toBe('saved');
    expect(drawer.kept).toBeNull();
  });

  it('saves what was written while it was being saved', async () => {
    const { setup, server, turnClock } = world(textOf('One'));
    const keeper = new DraftKeeper(server(), setup);
    keeper.edit(rename('Two'));
    const turning = turnClock();
    keeper.edit(rename('Three'));
    await turning;
    await turnClock();
    expect(server().text.title).toBe('Three');
    expect(keeper.getSnapshot().save.kind).toBe('saved');
  });

  it('waits while the server is out of reach and saves when it is back', async () => {
    const { setup, server, turnClock, fail, drawer } = world(textOf('One'));
    const keeper = new DraftKeeper(server(), setup);
    fail('offline');
    keeper.edit(rename('Two'));
    await turnClock();
    expect(keeper.getSnapshot().save).toEqual({ kind: 'waiting', count: 1, what: 'change' });
    expect(drawer.kept?.text.title).toBe('Two');
    fail(null);
    await turnClock();
    expect(server().text.title).toBe('Two');
  });

  it('never writes over a colleague: both texts are there until somebody chooses', async () => {
    const { setup, server, turnClock, saveElsewhere } = world(textOf('One', 'a'));
    const keeper = new DraftKeeper(server(), setup);
    saveElsewhere(textOf('Theirs', 'their a'));
    keeper.edit(() => textOf('Mine', 'my a'));
    await turnClock();
    expect(keeper.getSnapshot()).toMatchObject({
      text: { title: 'Mine' },
      theirs: { text: { title: 'Theirs' } },
      save: { kind: 'differs' },
    });
    expect(server().text.title).toBe('Theirs');
    keeper.resolve('both');
    await turnClock();
    expect(server().text.steps.map((step) => (step.kind === 'text' ? step.text : ''))).toEqual(['their a', 'my a']);
    expect(new Set(server().text.steps.map(({ id }) => id)).size).toBe(2);
  });

  it('can keep either side whole', async () => {
    for (const side of ['mine', 'theirs'] as const) {
      const { setup, server, turnClock, saveElsewhere } = world(textOf('One'));
      const keeper = new DraftKeeper(server(), setup);
      saveElsewhere(textOf('theirs'));
      keeper.edit(rename('mine'));
      await turnClock();
      keeper.resolve(side);
      await turnClock();
      expect([server().text.title, keeper.getSnapshot().text.title]).toEqual([side, side]);
    }
  });

  it('goes on with what an earlier visit could not save', async () => {
    const { setup, server, turnClock } = world(textOf('One'));
    const keeper = new DraftKeeper(server(), setup, { text: textOf('Unsaved'), etag: '1' });
    expect(keeper.getSnapshot().text.title).toBe('Unsaved');
    await turnClock();
    expect(server().text.title).toBe('Unsaved');
  });

  it('asks when the unsaved text of an earlier visit meets a newer one', () => {
    const { setup } = world(textOf('One'));
    const keeper = new DraftKeeper({ text: textOf('Newer'), etag: '5' }, setup, { text: textOf('Unsaved'), etag: '1' });
    expect(keeper.getSnapshot()).toMatchObject({ text: { title: 'Unsaved' }, theirs: { text: { title: 'Newer' } } });
  });
});
