import { readScoreFile, type Bar, type Score } from '../../music/index.ts';
import { demoPieces } from '../../seed/demo-pieces.ts';
import { trueMarks } from '../../seed/true-marks.ts';
import { registryScore, sourceVoices } from '../registry-scores.ts';

/** One note of a true line. */
export interface SourceNote {
  readonly onsetTicks: number;
  readonly lengthTicks: number;
  readonly midi: number;
}

/** Music whose lines are known, to be arranged. */
export interface Source {
  readonly id: string;
  readonly ticksPerQuarter: number;
  readonly bars: readonly Bar[];
  /** In order of time. */
  readonly lines: readonly (readonly SourceNote[])[];
  /** Whether a line strikes several notes at once in a tenth of its moments or more. */
  readonly hasChords: boolean;
}

/** The voices of a file that make the lines of a source; where a name ends in `^`, the top notes of that voice alone. */
type Choice = readonly [path: string, ...voices: readonly string[]];

const choices: readonly Choice[] = [
  ['v2/BWV_0773.xml', 'P1/1/1', 'P1/2/2'],
  ['v2/BWV_0775.xml', 'P1/1/1', 'P1/2/2'],
  ['v3/Binchois.xml', 'P1/1/1', 'P2/1/1', 'P2/1/2'],
  ['v3/Telemann.xml', 'P1/1/1', 'P2/1/1^', 'P2/2/7'],
  ['v3/MozartTrio.xml', 'P1/1/1', 'P4/1/1^', 'P5/1/1'],
  ['v3/MozaChloSample.xml', 'P1/1/1', 'P2/1/1^', 'P2/2/3^'],
  ['v3/MozaVeilSample.xml', 'P1/1/1', 'P2/1/1^', 'P2/2/5^'],
  ['v3/MozartTrio.xml', 'P1/1/1', 'P2/1/1', 'P4/1/1^', 'P5/1/1'],
  ['v3/Telemann.xml', 'P1/1/1', 'P2/1/1^', 'P2/1/2^', 'P2/2/7'],
  ['v3/ActorPreludeSample.xml', 'P17/1/1^', 'P18/1/1^', 'P20/1/1', 'P22/1/1'],
  ['v3/BrahWiMeSample.xml', 'P1/1/1', 'P2/1/1', 'P2/2/3'],
  ['v3/SchbAvMaSample.xml', 'P1/1/1', 'P2/1/1', 'P2/2/2^'],
  ['v3/FaurReveSample.xml', 'P1/1/1', 'P2/1/1', 'P2/2/1^'],
  ['v3/BrookeWestSample.xml', 'P1/1/1', 'P2/1/1'],
];

/** A tune that follows itself: how many quarters later and how many semitones lower each time. */
interface Canon {
  readonly path: string;
  readonly voice: string;
  readonly entries: readonly (readonly [delayQuarters: number, semitones: number])[];
}

const canons: readonly Canon[] = [
  {
    path: 'v3/Saltarello.xml',
    voice: 'P1/1/1',
    entries: [
      [0, 12],
      [12, 5],
      [24, -7],
    ],
  },
  {
    path: 'v2/BWV_0775.xml',
    voice: 'P1/1/1',
    entries: [
      [0, 0],
      [6, -12],
      [12, -24],
    ],
  },
  {
    path: 'v3/Saltarello.xml',
    voice: 'P1/1/1',
    entries: [
      [0, 12],
      [12, 7],
      [24, 0],
      [36, -7],
    ],
  },
  {
    path: 'v3/Echigo-Jishi.xml',
    voice: 'P1/1/1',
    entries: [
      [0, 5],
      [8, -2],
      [16, -7],
      [24, -19],
    ],
  },
];

const byTime = (a: SourceNote, b: SourceNote): number => a.onsetTicks - b.onsetTicks || b.midi - a.midi;
const isTop = (note: SourceNote, index: number, line: readonly SourceNote[]): boolean =>
  note.onsetTicks !== line[index - 1]?.onsetTicks;

function notesWhere(score: Score, isIncluded: (index: number) => boolean): readonly SourceNote[] {
  return score.notes
    .flatMap(({ onsetTicks, lengthTicks, sound }, index) =>
      sound.kind === 'pitched' && isIncluded(index) ? [{ onsetTicks, lengthTicks, midi: sound.soundingMidi }] : [],
    )
    .sort(byTime);
}

function sourceOf(id: string, score: Score, lines: readonly (readonly SourceNote[])[]): Source {
  const { ticksPerQuarter, bars } = score;
  const hasChords = lines.some((line) => line.length >= 1.1 * line.filter(isTop).length);
  return { id, ticksPerQuarter, bars, lines, hasChords };
}

const nameOf = (path: string): string => path.replace(/^.*\/|(Sample)?\.xml$/g, '');

function registrySource([path, ...voices]: Choice): Source {
  const score = registryScore(path);
  const written = sourceVoices(score);
  const lines = voices.map((name) => {
    const line = notesWhere(score, (index) => written[index] === name.replace('^', ''));
    return name.endsWith('^') ? line.filter(isTop) : line;
  });
  return sourceOf(`${nameOf(path)} in ${voices.length}`, score, lines);
}

function canonSource({ path, voice, entries }: Canon): Source {
  const score = registryScore(path);
  const written = sourceVoices(score);
  const tune = notesWhere(score, (index) => written[index] === voice);
  const endTicks = Math.max(...score.bars.map(({ onsetTicks, lengthTicks }) => onsetTicks + lengthTicks));
  const lines = entries.map(([delayQuarters, semitones]) =>
    tune
      .map((note) => ({
        ...note,
        onsetTicks: note.onsetTicks + delayQuarters * score.ticksPerQuarter,
        midi: note.midi + semitones,
      }))
      .filter(({ onsetTicks, lengthTicks }) => onsetTicks + lengthTicks <= endTicks),
  );
  return sourceOf(`${nameOf(path)}, a canon in ${lines.length}`, score, lines);
}

function demoSource(demo: ReturnType<typeof demoPieces>[number]): Source {
  const bytes = new TextEncoder().encode(demo.musicXml);
  const read = readScoreFile(bytes, { fileName: demo.fileName, firstNoteNumber: 1, firstBarNumber: 1 });
  if (!read.ok) throw new Error(`${demo.fileName} cannot be read`);
  const { score } = read.value;
  const { marks } = trueMarks(demo.piece, score);
  const pitched = demo.lines.filter(({ role }) => role !== 'percussion');
  const lines = pitched.map(({ letter }) =>
    notesWhere(
      score,
      (index) => marks.get((score.notes[index] as Score['notes'][number]).id)?.some((line) => line === letter) === true,
    ),
  );
  return sourceOf(demo.title, score, lines);
}

/** All music that there is to arrange: the registry's files, canons on their tunes, and the demo. */
export const sources = (): readonly Source[] => [
  ...choices.map(registrySource),
  ...canons.map(canonSource),
  ...demoPieces().map(demoSource),
];
