import { bestMatching } from './best-matching.ts';
import { inTime, truthOf, type Label, type Piece, type TrueNote } from './piece.ts';

/** What the teacher works with. Each proposal is accepted whole, and the next begins from it. */
export interface Tool {
  /** A label for each note, with every pinned note where its pin says. **Shape** pins: index of the note → its label. */
  readonly propose: (pins: ReadonlyMap<number, string>) => readonly Label[];
  /** A line of the teacher's own, for a voice that the tool found none for. **Units** MIDI note number of the voice's mean. */
  readonly addLine: (meanMidi: number) => string;
}

/** How one piece went. */
export interface Lesson {
  readonly id: string;
  /** Marks of a teacher who corrects the first proposal alone: its runs of wrong notes. */
  readonly byHand: number;
  /** Marks until nothing was wrong, a new proposal taken after each. */
  readonly withTool: number;
}

const meanMidi = (piece: Piece, voice: string): number => {
  const pitches = piece.notes.filter((note) => note.voice === voice).map(({ midi }) => midi);
  return pitches.reduce((sum, midi) => sum + midi, 0) / pitches.length;
};

/** The label that each note should have: matched once with the first proposal. */
function wantedLabels(piece: Piece, first: readonly Label[], tool: Tool): readonly string[] {
  const labelOf = new Map<string, string>(bestMatching(truthOf(piece), first));
  for (const voice of new Set(truthOf(piece)))
    if (!labelOf.has(voice)) labelOf.set(voice, tool.addLine(meanMidi(piece, voice)));
  return truthOf(piece).map((voice) => labelOf.get(voice) as string);
}

/** The notes of each true voice in order of time. */
function voicesInTime(piece: Piece): readonly (readonly number[])[] {
  const voices = new Map<string, number[]>();
  for (const index of inTime(piece.notes)) {
    const { voice } = piece.notes[index] as TrueNote;
    const earlier = voices.get(voice);
    if (earlier === undefined) voices.set(voice, [index]);
    else earlier.push(index);
  }
  return [...voices.values()];
}

/** Every run of notes that stand wrong one after the other in a true voice. **Shape** indices in order of time. */
export function wrongRuns(
  voices: readonly (readonly number[])[],
  wanted: readonly string[],
  labels: readonly Label[],
): readonly (readonly number[])[] {
  const runs: number[][] = [];
  for (const voice of voices) {
    let isInRun = false;
    for (const index of voice) {
      const isWrong = labels[index] !== wanted[index];
      if (isWrong && isInRun) runs.at(-1)?.push(index);
      else if (isWrong) runs.push([index]);
      isInRun = isWrong;
    }
  }
  return runs;
}

/**
 * Corrects a piece as a patient teacher would: goes to the first wrong note in time, marks the run of wrong notes of that voice up to the next
 * right one, takes the new proposal, and begins again until nothing is wrong.
 * **Errors** throws where the tool overrides a pin, for then it would never end.
 */
export function teach(piece: Piece, tool: Tool): Lesson {
  const rank = new Map(inTime(piece.notes).map((index, place) => [index, place]));
  const rankOf = (run: readonly number[]): number => rank.get(run[0] as number) as number;
  const voices = voicesInTime(piece);
  const pins = new Map<number, string>();
  let labels = tool.propose(pins);
  const wanted = wantedLabels(piece, labels, tool);
  const byHand = wrongRuns(voices, wanted, labels).length;
  for (let withTool = 0; ; withTool++) {
    const runs = wrongRuns(voices, wanted, labels);
    if (runs.length === 0) return { id: piece.id, byHand, withTool };
    const first = runs.reduce((earliest, run) => (rankOf(run) < rankOf(earliest) ? run : earliest));
    for (const index of first) {
      if (pins.has(index)) throw new Error(`${piece.id}: the tool moved note ${index}, which was pinned`);
      pins.set(index, wanted[index] as string);
    }
    labels = tool.propose(pins);
  }
}
