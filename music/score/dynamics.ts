/** The dynamic levels, softest to loudest. **Source** MusicXML 4.0, dynamics. */
export const dynamicLevels = [
  'pppppp',
  'ppppp',
  'pppp',
  'ppp',
  'pp',
  'p',
  'mp',
  'mf',
  'f',
  'ff',
  'fff',
  'ffff',
  'fffff',
  'ffffff',
] as const;

/** A dynamic level. */
export type DynamicLevel = (typeof dynamicLevels)[number];

/** The loudnesses for one moment, each with the level that the music is left at; null where it is as before. **Source** the signs are MusicXML 4.0's, dynamics; the levels are common practice, no source: fp is loud, then soft. */
export const levelAfterAccent = {
  sf: null,
  sfp: 'p',
  sfpp: 'pp',
  sfz: null,
  sfzp: 'p',
  sffz: null,
  fp: 'p',
  fz: null,
  pf: 'f',
  rf: null,
  rfz: null,
} as const satisfies Readonly<Record<string, DynamicLevel | null>>;

/** A loudness for one moment. */
export type DynamicAccent = keyof typeof levelAfterAccent;

const levels: ReadonlySet<string> = new Set(dynamicLevels);

/** Whether a sign is a level from its moment on. */
export const isDynamicLevel = (sign: string): sign is DynamicLevel => levels.has(sign);

/** Whether a sign is a loudness for one moment. */
export const isDynamicAccent = (sign: string): sign is DynamicAccent => Object.hasOwn(levelAfterAccent, sign);
