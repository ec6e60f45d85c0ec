import { mixOfOnly } from '../../../music/index.ts';
import { Player } from '../../../web/playback/player.ts';
import { renderOffline } from '../../../web/playback/render-offline.ts';
import { shortHash } from '../short-hash.ts';
import { littlePerformance } from './little-performance.ts';

const performance = littlePerformance();
const player = new Player();
player.load(performance);
document.querySelector('button')?.addEventListener('click', () => player.play());

const offline = async (sampleRate: number, sampleCount: number): Promise<string> => {
  const mix = mixOfOnly(performance, performance.lines, true);
  const { left, right } = await renderOffline(performance, mix, sampleCount / sampleRate, sampleRate);
  return shortHash(
    [left, right].map((side) => new Uint8Array(Float32Array.from(side.subarray(0, sampleCount)).buffer)),
  );
};

Object.assign(window, { player, offline });
