import type { Instrument, Stroke } from '../perform/performance.ts';

/** What a string of an instrument is like. Values from memory and by measuring our own output; no source. */
export interface StringCharacter {
  /** Time to fall by 60 dB: of the fundamental at 110 Hz, how it shortens with pitch (an exponent), and at 4 kHz. **Units** seconds. */
  readonly ringSeconds: number;
  readonly shortening: number;
  readonly brightSeconds: number;
  /** Share of the string's length from the bridge where it is plucked. */
  readonly position: number;
  readonly touchSeconds: number;
  /** Softness of the finger at full strength. **Units** hertz. */
  readonly fingerHertz: number;
  readonly noise: number;
  /** The share of the polarisation that drives the body, and how much longer the other one rings. */
  readonly mainShare: number;
  readonly secondRing: number;
  /** How much of it the body gives off; the rest is heard as from a pickup at the string. */
  readonly bodyShare: number;
  readonly levelDb: number;
}

/** The plucked instruments. */
export const stringCharacters: Readonly<Record<Exclude<Instrument, 'hum'>, StringCharacter>> = {
  steel: {
    ringSeconds: 5,
    shortening: 0.5,
    brightSeconds: 1,
    position: 0.17,
    touchSeconds: 0.00024,
    fingerHertz: 9000,
    noise: 0.2,
    mainShare: 0.78,
    secondRing: 1.8,
    bodyShare: 1,
    levelDb: 0,
  },
  nylon: {
    ringSeconds: 3.8,
    shortening: 0.55,
    brightSeconds: 0.42,
    position: 0.2,
    touchSeconds: 0.0006,
    fingerHertz: 5000,
    noise: 0.1,
    mainShare: 0.8,
    secondRing: 1.7,
    bodyShare: 1,
    levelDb: 1.5,
  },
  bass: {
    ringSeconds: 5.2,
    shortening: 0.45,
    brightSeconds: 0.5,
    position: 0.22,
    touchSeconds: 0.0009,
    fingerHertz: 3800,
    noise: 0.08,
    mainShare: 0.8,
    secondRing: 1.6,
    bodyShare: 0.25,
    levelDb: 0.5,
  },
};

/** How a stroke changes the string: factors, except `position`, which is added. */
export interface StrokeCharacter {
  readonly ring: number;
  readonly bright: number;
  readonly finger: number;
  readonly noise: number;
  readonly level: number;
  readonly position: number;
}

/** The ways to set a string moving. From memory, no source. */
export const strokeCharacters: Readonly<Record<Stroke, StrokeCharacter>> = {
  pluck: { ring: 1, bright: 1, finger: 1, noise: 1, level: 1, position: 0 },
  legato: { ring: 1, bright: 0.9, finger: 0.25, noise: 0, level: 0.6, position: 0.12 },
  palmMute: { ring: 0.07, bright: 0.15, finger: 0.3, noise: 0.5, level: 1, position: -0.04 },
  harmonic: { ring: 1.15, bright: 0.8, finger: 0.5, noise: 0.5, level: 0.8, position: 0.3 },
  dead: { ring: 0.02, bright: 0.1, finger: 0.7, noise: 1.5, level: 0.9, position: 0 },
};

/** A mode of something struck. **Units** hertz; seconds to fall by 60 dB; share of the whole. */
interface StruckMode {
  readonly hertz: number;
  readonly ringSeconds: number;
  readonly share: number;
}

/** What a struck thing sounds like: its modes, and the noise of the touch. */
export interface StruckCharacter {
  readonly modes: readonly StruckMode[];
  readonly noise: number;
  readonly noiseHertz: number;
  readonly noiseSeconds: number;
  readonly levelDb: number;
}

export type Struck = 'lowBody' | 'highBody' | 'stringSlap' | 'deadNote' | 'barClick' | 'beatClick';

/** Hits on a guitar's body and strings, and the click: modes of a small wooden box, from memory, no source. */
export const struckCharacters: Readonly<Record<Struck, StruckCharacter>> = {
  lowBody: {
    modes: [
      { hertz: 97, ringSeconds: 0.3, share: 1 },
      { hertz: 193, ringSeconds: 0.17, share: 0.7 },
      { hertz: 268, ringSeconds: 0.12, share: 0.32 },
      { hertz: 402, ringSeconds: 0.08, share: 0.24 },
      { hertz: 585, ringSeconds: 0.055, share: 0.14 },
      { hertz: 910, ringSeconds: 0.03, share: 0.07 },
    ],
    noise: 0.16,
    noiseHertz: 1400,
    noiseSeconds: 0.006,
    levelDb: -3,
  },
  highBody: {
    modes: [
      { hertz: 236, ringSeconds: 0.14, share: 0.5 },
      { hertz: 418, ringSeconds: 0.11, share: 0.9 },
      { hertz: 655, ringSeconds: 0.075, share: 0.7 },
      { hertz: 1010, ringSeconds: 0.05, share: 0.5 },
      { hertz: 1570, ringSeconds: 0.03, share: 0.28 },
      { hertz: 2380, ringSeconds: 0.018, share: 0.13 },
    ],
    noise: 0.3,
    noiseHertz: 3800,
    noiseSeconds: 0.004,
    levelDb: -5,
  },
  stringSlap: {
    modes: [
      { hertz: 112, ringSeconds: 0.12, share: 0.35 },
      { hertz: 330, ringSeconds: 0.16, share: 0.3 },
      { hertz: 742, ringSeconds: 0.09, share: 0.3 },
      { hertz: 1480, ringSeconds: 0.06, share: 0.28 },
      { hertz: 2710, ringSeconds: 0.035, share: 0.22 },
      { hertz: 4300, ringSeconds: 0.02, share: 0.12 },
    ],
    noise: 0.75,
    noiseHertz: 6500,
    noiseSeconds: 0.014,
    levelDb: -2,
  },
  deadNote: {
    modes: [
      { hertz: 118, ringSeconds: 0.1, share: 0.5 },
      { hertz: 236, ringSeconds: 0.09, share: 0.6 },
      { hertz: 471, ringSeconds: 0.07, share: 0.45 },
      { hertz: 940, ringSeconds: 0.045, share: 0.3 },
      { hertz: 1890, ringSeconds: 0.025, share: 0.15 },
    ],
    noise: 0.4,
    noiseHertz: 3200,
    noiseSeconds: 0.008,
    levelDb: -3,
  },
  barClick: {
    modes: [
      { hertz: 1568, ringSeconds: 0.06, share: 0.9 },
      { hertz: 3136, ringSeconds: 0.03, share: 0.3 },
    ],
    noise: 0.05,
    noiseHertz: 6000,
    noiseSeconds: 0.002,
    levelDb: -10,
  },
  beatClick: {
    modes: [
      { hertz: 1047, ringSeconds: 0.055, share: 0.8 },
      { hertz: 2093, ringSeconds: 0.026, share: 0.25 },
    ],
    noise: 0.05,
    noiseHertz: 5000,
    noiseSeconds: 0.002,
    levelDb: -12,
  },
};

/** Resonances of a small guitar's body beside the direct sound: the air's, the top's, then ever more. From memory, no source. */
export const bodyModes: readonly { readonly hertz: number; readonly quality: number; readonly share: number }[] = [
  { hertz: 102, quality: 9, share: 0.85 },
  { hertz: 194, quality: 12, share: 0.8 },
  { hertz: 218, quality: 16, share: 0.4 },
  { hertz: 271, quality: 18, share: -0.35 },
  { hertz: 374, quality: 14, share: 0.5 },
  { hertz: 431, quality: 20, share: -0.35 },
  { hertz: 524, quality: 16, share: 0.42 },
  { hertz: 637, quality: 18, share: -0.36 },
  { hertz: 769, quality: 16, share: 0.4 },
  { hertz: 921, quality: 14, share: -0.34 },
  { hertz: 1104, quality: 12, share: 0.36 },
  { hertz: 1390, quality: 9, share: -0.3 },
  { hertz: 1880, quality: 5, share: 0.34 },
  { hertz: 2750, quality: 3, share: 0.3 },
];
