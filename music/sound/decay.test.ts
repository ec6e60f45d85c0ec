import { describe, expect, it } from 'vitest';
import { fadeSeconds, heard, hertzOf } from '../../tests/support/listening.ts';
import { StringVoice } from './string-voice.ts';

const sampleRate = 48_000;
const space = { shape: new Float64Array(4000), scratch: new Float64Array(4000) };

function open(instrument: 'steel' | 'nylon', midi: number): Float32Array {
  const voice = new StringVoice(sampleRate, space);
  const played = { kind: 'pitched', instrument, midi, stroke: 'pluck' } as const;
  voice.start(played, { voice: played, strength: 0.6, fret: 0, glide: [] }, 4711, 1);
  return heard(voice, sampleRate, 1);
}

/**
 * Open strings, low to high. How long a fundamental takes to fall by 60 dB on a good guitar: from memory, no source.
 * Tension, mass a metre, bending stiffness and the three loss factors of nylon strings: Woodhouse, On the Synthesis of
 * Guitar Plucks, Acta Acustica united with Acustica 90 (2004), table I, quoted from memory.
 */
const strings = [
  { string: 6, midi: 40, steel: 8, nylon: 5.5, tension: 71.6, bending: 57e-6, friction: 2e-5, air: 1.2, stiff: 0.02 },
  { string: 5, midi: 45, steel: 7, nylon: 4.8, tension: 73.9, bending: 40e-6, friction: 7e-5, air: 0.9, stiff: 0.02 },
  { string: 4, midi: 50, steel: 5.5, nylon: 4, tension: 71.2, bending: 51e-6, friction: 5e-5, air: 1.2, stiff: 0.02 },
  {
    string: 3,
    midi: 55,
    steel: 4.5,
    nylon: 3,
    tension: 58.3,
    bending: 310e-6,
    friction: 14e-5,
    air: 1.7,
    stiff: 0.024,
  },
  {
    string: 2,
    midi: 59,
    steel: 4,
    nylon: 2.6,
    tension: 53.4,
    bending: 160e-6,
    friction: 40e-5,
    air: 1.2,
    stiff: 0.024,
  },
  {
    string: 1,
    midi: 64,
    steel: 3.3,
    nylon: 2.2,
    tension: 70.3,
    bending: 130e-6,
    friction: 40e-5,
    air: 1.5,
    stiff: 0.024,
  },
];
const scaleMetres = 0.65;

/** How long a partial of a string alone would ring, on a body that takes nothing from it. Woodhouse 2004, equation 8, from memory. */
function ringOfStringAlone(string: (typeof strings)[number], partial: number): number {
  const turn = 2 * Math.PI * hertzOf(string.midi) * partial;
  const bent = string.bending * ((partial * Math.PI) / scaleMetres) ** 2;
  const loss = (string.tension * (string.friction + string.air / turn) + bent * string.stiff) / (string.tension + bent);
  return (2 * Math.log(1000)) / (turn * loss);
}

describe('how long open strings ring', () => {
  it.each(strings)('within 25 % of what a good guitar’s do, string $string', ({ midi, steel, nylon }) => {
    for (const [instrument, wanted] of [
      ['steel', steel],
      ['nylon', nylon],
    ] as const) {
      const found = fadeSeconds(open(instrument, midi), sampleRate, hertzOf(midi), 0.6);
      expect(found / wanted).toBeGreaterThan(0.75);
      expect(found / wanted).toBeLessThan(1.25);
    }
  });

  it.each(strings)('shorter than nylon alone would, since the body takes its part, string $string', (string) => {
    const sound = open('nylon', string.midi);
    for (const partial of [1, 2, 3, 4, 6, 8]) {
      const found = fadeSeconds(sound, sampleRate, hertzOf(string.midi) * partial, 0.6);
      expect(found).toBeLessThan(ringOfStringAlone(string, partial));
      expect(found).toBeGreaterThan(0.1 * ringOfStringAlone(string, partial));
    }
  });
});
