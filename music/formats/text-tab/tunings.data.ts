/** Usual tunings by name, highest string first. **Units** MIDI note numbers as they sound. **Source** common practice, from memory. */
export const namedTunings: readonly (readonly [RegExp, readonly number[]])[] = [
  [/\bdouble\s*drop(?:ped)?[\s-]*d\b/i, [62, 59, 55, 50, 45, 38]],
  [/\bdrop(?:ped)?[\s-]*d\b/i, [64, 59, 55, 50, 45, 38]],
  [/\bdrop(?:ped)?[\s-]*c\b/i, [62, 57, 53, 48, 43, 36]],
  [/\bdadgad\b/i, [62, 57, 55, 50, 45, 38]],
  [/\bopen[\s-]*g\b/i, [62, 59, 55, 50, 43, 38]],
  [/\bopen[\s-]*d\b/i, [62, 57, 54, 50, 45, 38]],
  [/\bopen[\s-]*c\b/i, [64, 60, 55, 48, 43, 36]],
  [/\bopen[\s-]*e\b/i, [64, 59, 56, 52, 47, 40]],
  [/\bopen[\s-]*a\b/i, [64, 61, 57, 52, 45, 40]],
  [
    /\b(?:e\s?(?:b|♭)|half[\s-]*(?:a[\s-]*)?step[\s-]*down|(?:1\/2|½)[\s-]*step[\s-]*down|down[\s-]*(?:a[\s-]*)?(?:half|1\/2|½)[\s-]*(?:a[\s-]*)?step)/i,
    [63, 58, 54, 49, 44, 39],
  ],
  [
    /\b(?:(?:whole|full|one|1)[\s-]*step[\s-]*down|down[\s-]*(?:a[\s-]*|one[\s-]*|1[\s-]*)?(?:whole[\s-]*|full[\s-]*)?step|d standard)/i,
    [62, 57, 53, 48, 43, 38],
  ],
  [/\b(?:standard|normal|regular)\b/i, [64, 59, 55, 50, 45, 40]],
];

/** What so many strings are tuned to where nothing is said, highest string first: guitar from six strings on, bass with four and five. **Units** MIDI note numbers. **Source** common practice, from memory. */
export const usualTunings: Readonly<Record<number, readonly number[]>> = {
  4: [43, 38, 33, 28],
  5: [43, 38, 33, 28, 23],
  6: [64, 59, 55, 50, 45, 40],
  7: [64, 59, 55, 50, 45, 40, 35],
  8: [64, 59, 55, 50, 45, 40, 35, 30],
};

/** Other instruments that are written so, known by their letters, highest line first: ukulele, five-string banjo, mandolin. **Units** MIDI note numbers. **Source** common practice, from memory. */
export const tuningsByLetters: Readonly<Record<string, readonly number[]>> = {
  'A E C G': [69, 64, 60, 67],
  'D B G D G': [62, 59, 55, 50, 67],
  'E A D G': [76, 69, 62, 55],
};
