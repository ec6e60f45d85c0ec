import { mixOfOnly } from '../../../music/index.ts';
import { Player } from '../../../web/playback/player.ts';
import { renderOffline } from '../../../web/playback/render-offline.ts';
import { littlePerformance } from './little-performance.ts';

const performance = littlePerformance();
const player = new Player();
player.load(performance);
document.querySelector('button')?.addEventListener('click', () => player.play());

async function hashOf(samples: Float32Array): Promise<string> {
  const digest = await crypto.subtle.digest(
    'SHA-256',
    Uint8Array.from(new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength)),
  );
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

const offline = async (sampleRate: number, seconds: number): Promise<string[]> => {
  const { left, right } = await renderOffline(
    performance,
    mixOfOnly(performance, performance.lines, true),
    seconds,
    sampleRate,
  );
  return Promise.all([left, right].map(hashOf));
};

Object.assign(window, { player, offline });
