import type { LineId } from '../basis/ids.ts';
import type { Issue } from '../basis/issue.ts';
import { shiftOctaves } from '../basis/pitch.ts';
import type { Line, Split } from '../operations/split.ts';
import type { Score, SoundingNote } from '../score/score.ts';
import type { StaffTablature, Transposition, WrittenEvent, WrittenSound, WrittenStaff } from '../score/written.ts';
import { barEvents, type BarSetting } from './bar-events.ts';
import { clefsFor, clefsFrom, type StaffClefs } from './clef.ts';
import type { Player } from './ensembles.ts';
import { byFrame } from './frame-directions.ts';
import { detailsOf, writtenGraces, type NoteExtras } from './head-details.ts';
import { lineDynamics } from './line-dynamics.ts';
import { lineJoins, type LineJoins } from './line-joins.ts';
import { lineNotes } from './line-notes.ts';
import { lineSlices, slicesIn, type SliceSetting } from './line-slices.ts';
import { rangeFinding, type RangeFinding } from './ranges.ts';
import { tablatureOf, type ProposedPlaces } from './staff-tablature.ts';
import { brokenSlurIssues, inexactIssues, rangeIssues, stringIssues } from './write-out-issues.ts';

/** What all staves of a written-out score have in common. */
export interface StaffSetting extends SliceSetting {
  readonly score: Score;
  readonly split: Pick<Split, 'marks'>;
  readonly extras: NoteExtras;
  readonly isNestedAt: BarSetting['isNestedAt'];
  readonly withTablature: boolean;
  readonly places: ProposedPlaces;
}

/** One line and who plays it. */
export interface StaffRequest {
  readonly line: Line;
  readonly player: Player | null;
  /** Octaves by which the line is moved. */
  readonly octaves: number;
}

/** A staff with what was found while it was written. */
export interface StaffWithIssues {
  readonly staff: WrittenStaff;
  readonly issues: readonly Issue[];
  readonly range: RangeFinding | null;
}

/** The notes of the whole line by the bars of the score, which say when each begins. */
function byBar(score: Score, notes: readonly SoundingNote[]): readonly (readonly SoundingNote[])[] {
  const lists = new Map(score.bars.map(({ id }) => [id, [] as SoundingNote[]]));
  for (const note of notes) lists.get(note.bar)?.push(note);
  return [...lists.values()];
}

function staffClefs(setting: StaffSetting, notes: readonly SoundingNote[], request: StaffRequest): StaffClefs {
  const { score, frames } = setting;
  const whole = clefsFor({
    bars: byBar(score, notes),
    isPercussion: request.line.role === 'percussion',
    choices: request.player?.clefs ?? null,
    octaves: request.octaves,
  });
  const first = score.bars.findIndex(({ id }) => id === frames[0]?.written.bar);
  return clefsFrom(whole, first, frames.length);
}

function barSetting(setting: StaffSetting, joins: LineJoins): BarSetting {
  const { ticksPerQuarter, extras, isNestedAt, places } = setting;
  return {
    ticksPerQuarter,
    isNestedAt,
    detailsOf: (note, place) => detailsOf(note, place, extras, joins),
    gracesOf: (id) => writtenGraces(id, extras, joins),
    placeOf: ({ id, fingerboard }) => fingerboard ?? places.get(id) ?? null,
  };
}

const soundMoved = (sound: WrittenSound, octaves: number): WrittenSound =>
  sound.kind === 'hit' ? sound : { kind: 'pitched', pitch: shiftOctaves(sound.pitch, octaves) };

/** An event some octaves away; its places on the fingerboard no longer hold. */
const eventMoved = (event: WrittenEvent, octaves: number): WrittenEvent => ({
  ...event,
  heads: event.heads.map((head) => ({ ...head, sound: soundMoved(head.sound, octaves), fingerboard: null })),
  graces: event.graces.map((grace) => ({ ...grace, sound: soundMoved(grace.sound, octaves), fingerboard: null })),
});

function eventsOf(
  setting: StaffSetting,
  notes: readonly SoundingNote[],
  joins: LineJoins,
  octaves: number,
): Pick<WrittenStaff, 'bars' | 'directions'> & { readonly inexactAtTicks: readonly number[] } {
  const slices = lineSlices(setting, notes);
  const common = barSetting(setting, joins);
  const bars = setting.frames.map((frame) => barEvents(slicesIn(slices, frame), frame, common));
  const events = bars.map((bar) => bar.events);
  return {
    bars: octaves === 0 ? events : events.map((bar) => bar.map((event) => eventMoved(event, octaves))),
    directions: byFrame(lineDynamics(setting.score.dynamics, slices, setting.range), setting.frames),
    inexactAtTicks: bars.flatMap(({ inexactAtTicks }) => inexactAtTicks),
  };
}

/** The strings of a staff: none where the line is moved or transposed away from them. */
function staffStrings(
  setting: StaffSetting,
  notes: readonly SoundingNote[],
  { player, octaves }: StaffRequest,
): StaffTablature | null {
  const isMoved = octaves !== 0 || (player?.transposition ?? null) !== null;
  return setting.withTablature && !isMoved ? tablatureOf(setting.score, notes, setting.places, setting.frames) : null;
}

/** The octaves that a document can name. **Source** MusicXML 4.0, octave. */
const [lowestOctave, highestOctave] = [0, 9];

/** A line that lies beyond what can be written is written whole octaves away from where it sounds; null where it need not. */
function broughtIntoReach(bars: WrittenStaff['bars']): Transposition | null {
  const octaves = bars
    .flat()
    .flatMap(({ heads, graces }) => [...heads, ...graces])
    .flatMap(({ sound }) => (sound.kind === 'pitched' ? [sound.pitch.octave] : []));
  const lowest = octaves.reduce((least, octave) => Math.min(least, octave), lowestOctave);
  const highest = octaves.reduce((most, octave) => Math.max(most, octave), highestOctave);
  const shift = lowest < lowestOctave ? lowestOctave - lowest : highestOctave - highest;
  return shift === 0 ? null : { chromatic: 0, diatonic: 0, octaves: shift };
}

/** One line as a staff, within the range of the setting. */
export function staffOf(setting: StaffSetting, request: StaffRequest): StaffWithIssues {
  const { score, range } = setting;
  const { line, player, octaves } = request;
  const wholeLine = lineNotes(score, setting.split, line.id).map(({ note }) => note);
  const notes = wholeLine.filter(({ onsetTicks }) => onsetTicks >= range.startTicks && onsetTicks < range.endTicks);
  const joins = lineJoins(score, notes, setting.extras.gracesOf);
  const { bars, directions, inexactAtTicks } = eventsOf(setting, notes, joins, octaves);
  const { clef, changes } = staffClefs(setting, wholeLine, request);
  const tablature = staffStrings(setting, notes, request);
  const found = player === null ? null : rangeFinding(line.id, notes, player, octaves);
  const transposition = clef.sign === 'percussion' ? null : (player?.transposition ?? broughtIntoReach(bars));
  const name = player === null ? line.name : `${player.name} (${line.name})`;
  const common = { line: line.id, name, letter: player?.abbreviation ?? line.letter };
  const staff = { ...common, clef, clefChanges: changes, transposition, tablature, directions, bars };
  const issues = [
    ...inexactIssues(score, inexactAtTicks, line.name),
    ...brokenSlurIssues(score, notes, joins.brokenAt, line.name),
    ...(found === null ? [] : rangeIssues(score, notes, found, line.name)),
    ...(tablature === null ? [] : stringIssues(score, notes, tablature.proposed, line.name)),
  ];
  return { staff, issues, range: found };
}

/** The lines that a request names, in its order. */
export const linesNamed = (lines: readonly Line[], wanted: readonly LineId[]): readonly Line[] =>
  wanted.flatMap((id) => lines.find((line) => line.id === id) ?? []);
