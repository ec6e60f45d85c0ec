import type { Instrument } from '../perform/performance.ts';

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
  /** The louder polarisation, and how much faster the second one dies. */
  readonly mainShare: number;
  readonly secondDecay: number;
  readonly levelDb: number;
}

/** The plucked instruments. */
export const stringCharacters: Readonly<Record<Exclude<Instrument, 'hum'>, StringCharacter>> = {
  steel: {
    ringSeconds: 5.6,
    shortening: 0.5,
    brightSeconds: 0.5,
    position: 0.17,
    touchSeconds: 0.00024,
    fingerHertz: 9000,
    noise: 0.2,
    mainShare: 0.68,
    secondDecay: 0.4,
    levelDb: 0,
  },
  nylon: {
    ringSeconds: 3.8,
    shortening: 0.55,
    brightSeconds: 0.2,
    position: 0.2,
    touchSeconds: 0.0006,
    fingerHertz: 5000,
    noise: 0.1,
    mainShare: 0.7,
    secondDecay: 0.35,
    levelDb: 0,
  },
  bass: {
    ringSeconds: 5.2,
    shortening: 0.45,
    brightSeconds: 0.28,
    position: 0.22,
    touchSeconds: 0.0009,
    fingerHertz: 3800,
    noise: 0.08,
    mainShare: 0.75,
    secondDecay: 0.45,
    levelDb: 0.5,
  },
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

/** Resonances of a small guitar's body beside the direct sound. From memory, no source. */
export const bodyModes: readonly { readonly hertz: number; readonly quality: number; readonly share: number }[] = [
  { hertz: 102, quality: 8, share: 0.6 },
  { hertz: 197, quality: 9, share: 0.55 },
  { hertz: 241, quality: 14, share: 0.45 },
  { hertz: 386, quality: 10, share: 0.42 },
  { hertz: 514, quality: 10, share: 0.35 },
  { hertz: 880, quality: 6, share: 0.25 },
  { hertz: 1900, quality: 3, share: 0.2 },
];
