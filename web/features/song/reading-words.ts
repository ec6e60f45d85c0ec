import { mostOctaves } from '../../../music/index.ts';
import type { PartChoice, ReadingChoice, ScoreReading } from '../../../contract/index.ts';

type Sounding = ScoreReading['sounding'][number];
type SoundingBelief = Pick<Sounding, 'octave' | 'octaveBy' | 'capo'>;

const formats: Readonly<Record<ScoreReading['format'], string>> = {
  musicxml: 'MusicXML',
  midi: 'MIDI',
  abc: 'ABC',
  textTab: 'text tablature',
};

const believed: Readonly<Record<Sounding['octaveBy'], string>> = {
  person: 'as you chose',
  transposition: 'as its transposition says',
  clef: 'as its clef says',
  frets: 'as its strings and frets say',
  assumption: 'assumed, since the file does not say',
};

/** A distance from written to sounding pitch: `an octave lower than its notes`. */
export function octaveWords(octave: number): string {
  if (octave === 0) return 'just as its notes say';
  const far = Math.abs(octave) === 1 ? 'an octave' : `${Math.abs(octave)} octaves`;
  return `${far} ${octave < 0 ? 'lower' : 'higher'} than its notes`;
}

const capoWords = (are: 'shapes' | 'sounding'): string =>
  are === 'shapes' ? 'the shapes that the hand plays' : 'as they sound with the capo';

const octaveBelief = ({ octave, octaveBy }: SoundingBelief): string => `${octaveWords(octave)}: ${believed[octaveBy]}.`;
const capoBelief = ({ are, by }: NonNullable<SoundingBelief['capo']>): string => `${capoWords(are)}: ${believed[by]}.`;

/** How one part with frets was read, and what was believed for it. */
export function soundingWords(sounding: SoundingBelief): string {
  const sounds = `Sounds ${octaveBelief(sounding)}`;
  return sounding.capo === null ? sounds : `${sounds} Its notes are ${capoBelief(sounding.capo)}`;
}

/** What the file alone gives to believe where a person chose; null where nobody did. */
export function unchosenWords({ octaveBy, capo, byFile }: Sounding): string | null {
  if (byFile === undefined) return null;
  const said = [
    ...(octaveBy === 'person' ? [`By the file alone it sounds ${octaveBelief(byFile)}`] : []),
    ...(capo?.by === 'person' && byFile.capo !== null
      ? [`By the file alone its notes are ${capoBelief(byFile.capo)}`]
      : []),
  ];
  return said.join(' ');
}

const gridKinds: Readonly<Record<ScoreReading['grid'][number]['kind'], string>> = {
  straight: 'straight',
  triplet: 'in triplets',
  swing: 'with swing',
  mixed: 'straight and in triplets by turns',
};

function gridSentence(grid: ScoreReading['grid']): string {
  const [only] = grid;
  if (only === undefined) return '';
  if (grid.length === 1) return `Time was counted ${gridKinds[only.kind]} throughout.`;
  const stretches = grid.map(({ firstBar, lastBar, kind }) =>
    firstBar === lastBar
      ? `${gridKinds[kind]} in the bar at place ${firstBar}`
      : `${gridKinds[kind]} in bars ${firstBar} to ${lastBar}`,
  );
  return `Time was counted ${stretches.join(', ')}.`;
}

/** How a file was read as a whole, a sentence each. */
export function readingSentences({ format, grid }: ScoreReading): readonly string[] {
  return [`The file was read as ${formats[format]}.`, gridSentence(grid)].filter((sentence) => sentence !== '');
}

/** Whether a file leaves anything to choose. */
export const isOpen = ({ tunes, grid, sounding }: ScoreReading): boolean =>
  tunes.length > 1 || grid.length > 0 || sounding.length > 0;

/** A choice with what is chosen for one part put anew; parts stay in the order of the score, those without a choice are left out. */
export function withPartChoice(choice: ReadingChoice, own: PartChoice, { sounding }: ScoreReading): ReadingChoice {
  const all = [...choice.sounding.filter(({ part }) => part !== own.part), own];
  const chosen = all.filter(({ octave, capo }) => octave !== null || capo !== null);
  return { ...choice, sounding: sounding.flatMap(({ part }) => chosen.filter((one) => one.part === part)) };
}

/** A tune as one finds it in its file. */
export const tuneWords = ({ number, title }: ScoreReading['tunes'][number]): string =>
  title === '' ? `no. ${number}, without a title` : `no. ${number}, ${title}`;

const asFileSays = { value: '', text: 'as the file gives to believe' } as const;

/** The ways to count a MIDI file's time. */
export const gridOptions = [
  { value: '', text: 'as fits each beat best' },
  { value: 'straight', text: 'straight, in halves and quarters' },
  { value: 'triplet', text: 'in triplets' },
  { value: 'swing', text: 'with swing' },
] as const;

const upTo = (count: number): readonly number[] => Array.from({ length: count }, (_, index) => index + 1);

/** Every octave from written to sounding pitch that can be chosen: none, then down, where guitars mostly sound, then up. */
export const octaveOptions = [
  asFileSays,
  ...[0, ...upTo(mostOctaves).map((octave) => -octave), ...upTo(mostOctaves)].map((octave) => ({
    value: String(octave),
    text: octaveWords(octave),
  })),
];

/** What pitches written for a capo may be. */
export const capoOptions = [
  asFileSays,
  { value: 'shapes', text: capoWords('shapes') },
  { value: 'sounding', text: capoWords('sounding') },
] as const;
