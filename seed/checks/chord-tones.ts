const stepSemitones: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** Semitones above the root of each quality that the demo's chord plans use. Common practice, no source. */
const qualities: Readonly<Record<string, readonly number[]>> = {
  '': [0, 4, 7],
  m: [0, 3, 7],
  '6': [0, 4, 7, 9],
  m6: [0, 3, 7, 9],
  '7': [0, 4, 7, 10],
  m7: [0, 3, 7, 10],
  maj7: [0, 4, 7, 11],
  sus4: [0, 5, 7],
  '7sus4': [0, 5, 7, 10],
  add9: [0, 2, 4, 7],
};

const pitchClassOf = (root: string): number =>
  ((stepSemitones[root.charAt(0)] ?? 0) + (root.endsWith('#') ? 1 : 0) + (root.endsWith('b') ? 11 : 0)) % 12;

/** The chord's pitch classes and the one its bass should have, or null for a name that is unknown here. */
export function chordTones(chordName: string): { readonly tones: readonly number[]; readonly bass: number } | null {
  const match = /^([A-G][#b]?)([^/]*)(?:\/([A-G][#b]?))?$/.exec(chordName);
  const intervals = qualities[match?.[2] ?? 'unknown'];
  if (match === null || intervals === undefined) return null;
  const root = pitchClassOf(match[1] ?? '');
  const tones = intervals.map((interval) => (root + interval) % 12);
  const bass = match[3] === undefined ? root : pitchClassOf(match[3]);
  return { tones: tones.includes(bass) ? tones : [...tones, bass], bass };
}
