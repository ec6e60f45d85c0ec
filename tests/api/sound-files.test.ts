import { existsSync } from 'node:fs';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plainPlaying, soundFilesJob, type SoundFilesJob } from '../../contract/index.ts';
import { SoundQueue } from '../../api/sound-files/sound-queue.ts';
import { startApp, type SignedIn, type TestApp } from '../support/app.ts';
import type { Answer } from '../support/caller.ts';
import { makeCourse, splitOf, type TestCourse } from '../support/course.ts';
import { outsideLoudness } from '../support/outside-loudness.ts';

let api: TestApp;
let course: TestCourse;
beforeAll(async () => {
  api = await startApp();
  course = await makeCourse(api);
});
afterAll(() => api.stop());

const path = (rest = ''): string => `/api/songs/${course.songId}/sound-files${rest}`;
function given({ status, text, json }: Answer, wanted: number): unknown {
  expect(status, text.slice(0, 300)).toBe(wanted);
  return json;
}
const begun = async (wish: object, { as }: SignedIn = course.owner): Promise<SoundFilesJob> =>
  soundFilesJob.parse(given(await as.post(path(), wish), 201));
const state = async ({ id }: SoundFilesJob): Promise<SoundFilesJob> =>
  soundFilesJob.parse(given(await course.owner.as.get(path(`/${id}`)), 200));

type Ready = Extract<SoundFilesJob, { readonly state: 'ready' }>;

/** Asks until it is ready; every answer costs a request, so this ends by the test's own limit at the latest. */
async function ready(job: SoundFilesJob): Promise<Ready> {
  for (;;) {
    const now = await state(job);
    if (now.state === 'ready') return now;
    if (now.state === 'failed') throw new Error(now.detail);
  }
}

async function download({ url }: Ready): Promise<{ readonly type: string | null; readonly bytes: Buffer }> {
  const response = await fetch(api.origin + url, { headers: { cookie: course.owner.as.cookie } });
  expect(response.status).toBe(200);
  return { type: response.headers.get('content-type'), bytes: Buffer.from(await response.arrayBuffer()) };
}

const sideOf = (bytes: Uint8Array, side: 0 | 1): Float32Array => {
  const view = Buffer.from(bytes);
  return Float32Array.from(
    { length: (view.length - 44) / 6 },
    (_, at) => view.readIntLE(44 + at * 6 + side * 3, 3) / 2 ** 23,
  );
};

describe('sound files by the server', () => {
  it('are a WAV of each line, which sum to the mix, with loudness as it is asked for', async () => {
    const { lines } = await splitOf(course);
    const made = await ready(await begun({ files: 'mixAndLines', tempoPercent: 150, loudnessLufs: -20 }));
    const { type, bytes } = await download(made);
    expect([type, bytes.length]).toEqual(['application/zip', made.bytes]);
    const sounds = Object.values(unzipSync(bytes));
    expect(made.sounds.map(({ holds }) => holds)).toEqual(['mix', ...lines.map(({ id }) => id)]);
    expect(Math.abs(outsideLoudness(sideOf(sounds[0]!, 0), sideOf(sounds[0]!, 1), 48_000) - -20)).toBeLessThan(0.1);
    expect(Math.abs(made.sounds[0]!.loudnessLufs! - -20)).toBeLessThan(0.1);
    const [mix, ...stems] = sounds.map((sound) => sideOf(sound, 0));
    const apart = mix!.map((value, index) => Math.abs(value - stems.reduce((sum, stem) => sum + stem[index]!, 0)));
    expect(apart.reduce((a, b) => Math.max(a, b), 0)).toBeLessThan(10 ** (-90 / 20));
  });

  it('play a mix of the song by its name', async () => {
    const { lines } = await splitOf(course);
    const plain = { levelDb: 0, tone: 0, place: 0, isSolo: false, isMuted: false };
    const mixes = [
      { id: 'a', name: 'Without it', lines: [{ ...plain, line: lines[0]!.id, isMuted: true }], forward: null },
    ];
    given(
      await course.owner.as.put(
        `/api/songs/${course.songId}/sound`,
        { playing: plainPlaying, mixes },
        { 'if-match': '"0"' },
      ),
      200,
    );
    const everybody = await ready(await begun({ tempoPercent: 150 }, course.owner));
    const without = await ready(await begun({ tempoPercent: 150, mix: { name: ' without IT ' } }));
    expect(everybody.sounds[0]!.loudnessLufs).not.toBeNull();
    expect(lines).toHaveLength(1);
    expect(without.sounds[0]!.loudnessLufs).toBeNull();
    const refusal = (await course.owner.as.post(path(), { mix: { name: 'Nowhere' } })).refused(404, 'not-found');
    expect(refusal.detail).toBe('This song has no mix called “Nowhere”. Nothing was played.');
    (await course.owner.as.post(path(), { mix: {} })).refused(400, 'body-invalid');
  });

  it('tell their place in the queue, are stopped, and belong to whoever asked', async () => {
    const first = await begun({ format: 'flac', tempoPercent: 25, loudnessLufs: -16, files: 'mixAndLines' });
    const second = await begun({ format: 'flac' });
    expect(second).toMatchObject({ state: 'waiting', place: 1 });
    (await course.owner.as.post(path(), {})).refused(429, 'too-many-requests');
    (await course.coTeacher.as.get(path(`/${first.id}`))).refused(404, 'not-found');
    (await course.owner.as.get(path(`/${second.id}/file`))).refused(404, 'not-found');
    given(await course.owner.as.delete(path(`/${first.id}`)), 204);
    (await course.owner.as.get(path(`/${first.id}`))).refused(404, 'not-found');
    const made = await ready(second);
    const { type, bytes } = await download(made);
    expect([type, bytes.toString('latin1', 0, 4)]).toEqual(['audio/flac', 'fLaC']);
    const { target } = api.app.get(SoundQueue).of(made.id)!.job;
    expect(existsSync(target)).toBe(true);
    given(await course.owner.as.delete(path(`/${second.id}`)), 204);
    expect(existsSync(target)).toBe(false);
  });

  it('refuse what cannot be played: bars that are not there, a tempo or a format that there is not', async () => {
    const offset = { numerator: 0, denominator: 1 };
    const excerpt = { from: { bar: 'b90', offset }, to: { bar: 'b91', offset } };
    const job = await begun({ excerpt });
    await expect(ready(job)).rejects.toThrow('The score has no such bars');
    (await course.owner.as.post(path(), { tempoPercent: 200 })).refused(400, 'body-invalid');
    (await course.owner.as.post(path(), { format: 'ogg' })).refused(400, 'body-invalid');
  });
});
