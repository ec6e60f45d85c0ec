import { splitFromSnapshot, type Score } from '../../../music/index.ts';
import { makeSound } from '../../../web/features/export/make-sound.ts';
import type { SoundFormat } from '../../../recording/index.ts';

interface Order {
  readonly score: Score;
  readonly split: Parameters<typeof splitFromSnapshot>[0];
  readonly format: SoundFormat;
  readonly targetLufs: number | null;
}

/** Makes a sound file of everything and of each line, as written; how long it took, and what came of it. */
const make = async ({ score, split: snapshot, format, targetLufs }: Order) => {
  const split = splitFromSnapshot(snapshot);
  const wish = {
    excerpt: null,
    isUnfolded: false,
    mix: { lines: [], forward: null },
    playing: {},
    tempoPercent: 100,
    countInBars: 0,
    click: { isOn: false, subdivision: 1 },
  } as const;
  const began = performance.now();
  const { made } = makeSound({ score, split, wish, hasStems: true, format, targetLufs }, () => undefined);
  const { blob, sounds, seconds } = await made;
  return { tookSeconds: (performance.now() - began) / 1000, bytes: blob.size, files: sounds.length, seconds };
};

Object.assign(window, { make });
