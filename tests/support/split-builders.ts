import { lineId, noteId } from '../../music/basis/ids.ts';
import type { Line, LineRole, Mark, Split } from '../../music/operations/split.ts';
import type { Score } from '../../music/score/score.ts';

const dyes = ['madder', 'weld', 'verdigris', 'indigo', 'walnut', 'logwood'] as const;
const roles: Readonly<Record<string, LineRole>> = {
  melody: 'melody',
  middle: 'middle',
  bass: 'bass',
  taps: 'percussion',
};

/** A line whose id is its name; its place in the list is `index`. */
export const lineNamed = (name: string, index = 0): Line => ({
  id: lineId(name),
  name,
  role: roles[name] ?? 'accompaniment',
  dye: dyes[index % dyes.length]!,
  letter: name.slice(0, 1).toUpperCase(),
  orderKey: `a${index}`,
  isRetired: false,
});

/** A split with a line per key that holds the notes named: `splitOf({ melody: ['n1'], bass: ['n2'] })`. */
export function splitOf(notesByLine: Readonly<Record<string, readonly string[]>>): Split {
  const marks = new Map<ReturnType<typeof noteId>, Mark>();
  for (const [name, notes] of Object.entries(notesByLine)) {
    for (const note of notes.map(noteId)) {
      const lines = [...(marks.get(note)?.lines ?? []), lineId(name)].sort();
      marks.set(note, { lines, from: 'person', confidence: null, revision: 1 });
    }
  }
  return { revision: 1, lines: Object.keys(notesByLine).map(lineNamed), marks };
}

/** Every note of the score on one line. */
export const allOn = (score: Score, name = 'melody'): Split => splitOf({ [name]: score.notes.map(({ id }) => id) });
