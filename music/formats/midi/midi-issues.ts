import type { Issue } from '../../basis/issue.ts';
import { assumedTempo } from '../../score/assumed-tempo.ts';
import type { Key } from '../../score/score.ts';
import type { BarMap, MidiBar } from './bar-map.ts';
import { opensWithTempo } from './midi-directions.ts';
import type { OpenMidi } from './open-midi.ts';
import type { Quantised } from './quantise.ts';
import type { SourceParts } from './source-parts.ts';

/** What was read, and how, for the report. */
export interface MidiReading {
  readonly midi: OpenMidi;
  readonly source: SourceParts;
  readonly barMap: BarMap;
  readonly quantised: Quantised;
  /** The key that was taken because the file names none; null where it names one. */
  readonly assumedKey: Key | null;
  /** Notes that fell on the same place and pitch as another one. */
  readonly merged: number;
  /** Strokes across strings that were written as chords. */
  readonly strums: number;
}

const fileIssue = (code: Issue['code'], severity: Issue['severity'], detail: string): Issue => ({
  code,
  severity,
  where: { kind: 'file' },
  detail,
});

const told = (count: number, one: string, many: string): string => (count === 1 ? `One ${one}` : `${count} ${many}`);

function counted(code: Issue['code'], severity: Issue['severity'], count: number, tell: () => string): Issue[] {
  return count === 0 ? [] : [fileIssue(code, severity, tell())];
}

function mendedIssues({ source, merged, strums }: MidiReading): Issue[] {
  const { unended, overlapped, doubled } = source.mended;
  return [
    ...counted('value-repaired', 'warning', unended, () => {
      return `${told(unended, 'note never ends', 'notes never end')}; held to the end of the track.`;
    }),
    ...counted('value-repaired', 'note', overlapped, () => {
      const what = told(overlapped, 'note sounds', 'notes sound');
      return `${what} on when the same pitch is struck again; ended there.`;
    }),
    ...counted('value-repaired', 'note', strums, () => {
      const what = told(strums, 'chord is struck', 'chords are struck');
      return `${what} from string to string within a moment; written as struck together.`;
    }),
    ...counted('value-repaired', 'note', doubled + merged, () => {
      const what = told(doubled + merged, 'note is struck', 'notes are struck');
      return `${what} twice at one place; written once.`;
    }),
  ];
}

function timeIssues({ midi, quantised, barMap, assumedKey }: MidiReading): Issue[] {
  const { movedOnsets, movedEnds } = quantised;
  const film = midi.framesPerSecond;
  return [
    ...counted('value-repaired', 'note', film === null ? 0 : 1, () => {
      return `The file counts time in frames (${film ?? 0} a second) and not in beats; half a second was taken for a quarter note.`;
    }),
    ...counted('value-repaired', 'note', movedOnsets + movedEnds, () => {
      return `Moved to the grid: ${movedOnsets} beginnings and ${movedEnds} ends of notes.`;
    }),
    ...counted('value-repaired', 'note', opensWithTempo(midi.tracks) ? 0 : 1, () => {
      return `The file does not say how fast it begins; ${assumedTempo} quarter notes a minute were taken, as the standard says.`;
    }),
    ...counted('meter-assumed', 'note', barMap.isMeterAssumed ? 1 : 0, () => {
      return 'The file names no meter; 4/4 was taken.';
    }),
    ...(assumedKey === null ? [] : [fileIssue('value-repaired', 'note', keyDetail(assumedKey))]),
    ...counted('value-repaired', 'warning', barMap.refusedMeters, () => {
      return `${told(barMap.refusedMeters, 'meter', 'meters')} that cannot be written passed over.`;
    }),
    ...counted('element-left-out', 'warning', barMap.isCutOff ? 1 : 0, () => {
      return `The music goes on beyond bar ${barMap.bars.length}, the last one that is read; what comes after was left out.`;
    }),
  ];
}

const keyDetail = ({ fifths, mode }: Key): string =>
  `The file names no key; a signature of ${signsOf(fifths)} was taken, in which the notes need the fewest accidentals${mode === 'minor' ? ', in minor, since the bass ends on its tonic' : ''}.`;

function signsOf(fifths: number): string {
  if (fifths === 0) return 'no sharps or flats';
  const count = Math.abs(fifths);
  return `${count} ${fifths > 0 ? 'sharp' : 'flat'}${count === 1 ? '' : 's'}`;
}

const swingIssues = ({ quantised }: MidiReading): Issue[] =>
  quantised.regions
    .filter(({ kind }) => kind === 'swing')
    .map(({ firstBar, lastBar }) =>
      fileIssue(
        'value-repaired',
        'note',
        `Bars ${firstBar} to ${lastBar} are played with swing; written as straight eighths and marked “Swing”.`,
      ),
    );

const cutIssue = (bar: MidiBar): Issue => ({
  code: 'bar-underfull',
  severity: 'note',
  where: { kind: 'music', part: '', barOrdinal: bar.index + 1, barLabel: bar.label, beat: 1 },
  detail: 'The meter changes before this bar is full; it was kept short.',
});

const velocitiesDiffer = ({ source }: MidiReading): boolean =>
  new Set(source.parts.flatMap(({ notes }) => notes.map(({ velocity }) => velocity))).size > 1;

/** Everything that reading a MIDI file changed, guessed or left out. */
export function issuesOf(reading: MidiReading): Issue[] {
  const leftOut = [...reading.source.leftOut].map(([name, count]) =>
    fileIssue('element-left-out', 'note', `Left out, since a score has no place for them: ${name}, ${count} in all.`),
  );
  const strengths = velocitiesDiffer(reading)
    ? [fileIssue('element-left-out', 'note', 'How hard each note is played was left out; no dynamics are made of it.')]
    : [];
  return [
    ...reading.midi.issues,
    ...timeIssues(reading),
    ...swingIssues(reading),
    ...mendedIssues(reading),
    ...strengths,
    ...leftOut,
    ...reading.barMap.cutShort.flatMap((index) => {
      const bar = reading.barMap.bars[index];
      return bar === undefined ? [] : [cutIssue(bar)];
    }),
  ];
}
