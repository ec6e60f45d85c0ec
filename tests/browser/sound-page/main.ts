import { mixOfOnly, type EngineMix, type Performance, type SecondsRange } from '../../../music/index.ts';
import { Player } from '../../../web/playback/player.ts';
import { renderOffline } from '../../../web/playback/render-offline.ts';
import { shortHash } from '../short-hash.ts';
import { littlePerformance } from './little-performance.ts';

const performance = littlePerformance();
const player = new Player({ beginsSoftly: false });
player.load(performance);
document.querySelector('button')?.addEventListener('click', () => player.play());

const offline = async (sampleRate: number, sampleCount: number): Promise<string> => {
  const mix = mixOfOnly(performance, performance.lines, true);
  const { left, right } = await renderOffline(performance, mix, sampleCount / sampleRate, sampleRate);
  return shortHash(
    [left, right].map((side) => new Uint8Array(Float32Array.from(side.subarray(0, sampleCount)).buffer)),
  );
};

/** Any performance as the worklet renders it, the left side's samples as text. */
const offlineLeft = async (
  played: Performance,
  mix: EngineMix,
  seconds: number,
  sampleRate: number,
  loop: SecondsRange | null,
): Promise<string> => {
  const { left } = await renderOffline(played, mix, seconds, sampleRate, loop);
  const bytes = new Uint8Array(left.buffer, left.byteOffset, left.byteLength);
  const pieces: string[] = [];
  for (let at = 0; at < bytes.length; at += 8192) pieces.push(String.fromCharCode(...bytes.subarray(at, at + 8192)));
  return btoa(pieces.join(''));
};

Object.assign(window, { player, offline, offlineLeft });
