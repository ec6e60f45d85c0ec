// `node scripts/draw-sounds.js`, after a build: plays every kind of sound alone through the whole engine, writes its waveform and
// spectrogram into docs/sound/ and its figures into the table of docs/sound.md.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { catalogue } from './sounds/catalogue.js';
import {
  centroidHertz,
  dbOf,
  fallSeconds,
  hertzOf,
  loudnessOf,
  pitchCents,
  ringSeconds,
  sampleRate,
} from './sounds/measures.js';
import { pictureOf } from './sounds/picture.js';
import { play } from './sounds/play.js';

const docs = join(import.meta.dirname, '..', 'docs');
const shown = (value, digits) => (Number.isFinite(value) ? value.toFixed(digits) : '–');
/** Peaks of a hum hardly fall, so that its ring means nothing. */
const rings = (sound) => sound.midi !== undefined && sound.name !== 'hum' && sound.name !== 'palm-mute';

function figuresOf(sound) {
  const heard = play(sound, Math.max(3, sound.seconds));
  const { left } = heard;
  const steady = left.subarray(0.1 * sampleRate, 0.7 * sampleRate);
  const peak = left.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  writeFileSync(join(docs, 'sound', `${sound.name}.png`), pictureOf(left, sound.seconds));
  return [
    `[${sound.title}](sound/${sound.name}.png)`,
    sound.midi === undefined || sound.name === 'palm-mute' ? '' : `${shown(pitchCents(steady, sound.midi), 2)}`,
    rings(sound) ? shown(ringSeconds(left, hertzOf(sound.midi)), 1) : '',
    shown(fallSeconds(left), 2),
    shown(centroidHertz(left, 0), 0),
    sound.seconds < 1 ? '' : shown(centroidHertz(left, 0.4), 0),
    shown(loudnessOf(heard), 1),
    shown(dbOf(peak), 1),
  ];
}

const rows = catalogue.map(figuresOf);
const table = [
  [
    'Sound',
    'Off pitch, cents',
    'Ring, s',
    'Falls by 20 dB in, s',
    'Centre at first, Hz',
    'After 0.4 s, Hz',
    'Loudness, LUFS',
    'Peak, dBFS',
  ],
  ['---', ...Array.from({ length: 7 }, () => '--:')],
  ...rows,
].map((cells) => `| ${cells.join(' | ')} |`);
const page = join(docs, 'sound.md');
const [before, , afterwards] = readFileSync(page, 'utf8').split(/<!-- figures -->\n/);
writeFileSync(page, `${before}<!-- figures -->\n\n${table.join('\n')}\n\n<!-- figures -->\n${afterwards}`);
console.log(table.join('\n'));
