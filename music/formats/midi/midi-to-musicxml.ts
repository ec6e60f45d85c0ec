import type { Issue } from '../../basis/issue.ts';
import type { Key } from '../../score/score.ts';
import { fileError } from '../file-issue.ts';
import { limits } from '../limits.ts';
import { textElement } from '../musicxml-writer/text-element.ts';
import { withBeams } from '../musicxml-writer/beamed-tree.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import { barAtTicks, barMapOf, namedKeys, type MidiBar } from './bar-map.ts';
import type { GridKind } from './beat-grid.ts';
import { directionsOf } from './midi-directions.ts';
import { issuesOf } from './midi-issues.ts';
import { writePart } from './midi-part.ts';
import { openMidi, type OpenMidi } from './open-midi.ts';
import type { PlayedNote } from './pair-notes.ts';
import { quantise, type GridRegion, type Quantised } from './quantise.ts';
import { sourcePartsOf, textOfBytes, type SourceParts } from './source-parts.ts';
import { endsInMinor, likelySignature } from './spell-pitch.ts';
import { gatherStrums } from './strums.ts';

/** How a MIDI file is to be read. */
export interface MidiOptions {
  /** The grid that time is read with; `auto` where none is named. */
  readonly grid?: GridKind;
}

/** A MIDI file as a MusicXML tree, what was found on the way, and how its time was read. */
export interface ReadMidi {
  /** A `<score-partwise>`; without parts where an issue of severity `error` says why nothing was read. */
  readonly value: XmlElement;
  readonly issues: readonly Issue[];
  readonly grid: readonly GridRegion[];
}

const unread = (issue: Issue): ReadMidi => ({
  value: element('score-partwise', { version: '4.0' }),
  issues: [issue],
  grid: [],
});

/** The lowest of the notes that sound when the last one is struck. */
function lastBass(notes: readonly PlayedNote[]): number | null {
  const last = notes.reduce((latest, { startTicks }) => Math.max(latest, startTicks), 0);
  const sounding = notes.filter(
    ({ startTicks, endTicks }) => startTicks === last || (startTicks < last && endTicks > last),
  );
  return sounding.reduce<number | null>((lowest, { midi }) => Math.min(lowest ?? midi, midi), null);
}

function keyOf(midi: OpenMidi, source: SourceParts): { readonly key: Key; readonly isAssumed: boolean } {
  const first = namedKeys(midi.tracks)[0];
  if (first !== undefined) return { key: first.value, isAssumed: false };
  const pitched = source.parts.filter(({ isPercussion }) => !isPercussion).flatMap(({ notes }) => notes);
  const fifths = likelySignature(
    pitched.map(({ midi: pitch, startTicks, endTicks }) => ({ midi: pitch, weight: endTicks - startTicks })),
  );
  const bass = lastBass(pitched);
  const mode = bass !== null && endsInMinor(bass, fifths) ? 'minor' : null;
  return { key: { fifths, mode }, isAssumed: pitched.length > 0 };
}

function copyrightOf({ tracks }: OpenMidi): XmlElement[] {
  const texts = tracks
    .flat()
    .flatMap(({ event }) => (event.type === 'copyrightNotice' ? [textOfBytes(event.text)] : []));
  return [...new Set(texts)].filter((text) => text !== '').map((text) => textElement('rights', text));
}

/** How many heads the notes need at least: one in each bar that they reach into. */
function headsOf(parts: readonly (readonly PlayedNote[])[], bars: readonly MidiBar[]): number {
  const barOf = (ticks: number): number => barAtTicks(bars, ticks)?.index ?? 0;
  return parts.flat().reduce((sum, { startTicks, endTicks }) => sum + 1 + barOf(endTicks) - barOf(startTicks), 0);
}

/** Leaves out bars at the end that nothing on the grid sounds in: what rang over a bar line by a moment is no bar. */
function endingWithNotes(
  quantised: Quantised,
  bars: readonly MidiBar[],
): { readonly quantised: Quantised; readonly bars: readonly MidiBar[] } {
  const end = quantised.parts.flat().reduce((latest, { endUnits }) => Math.max(latest, endUnits), 0);
  const kept = bars.filter(({ index, startUnits }) => index === 0 || startUnits < end);
  const regions = quantised.regions
    .filter(({ firstBar }) => firstBar <= kept.length)
    .map((region) => ({ ...region, lastBar: Math.min(region.lastBar, kept.length) }));
  return { quantised: { ...quantised, regions }, bars: kept };
}

function read(midi: OpenMidi, source: SourceParts, grid: GridKind): ReadMidi {
  const endTicks = Math.max(...source.parts.flatMap(({ notes }) => notes.map((note) => note.endTicks)));
  const { key, isAssumed } = keyOf(midi, source);
  const barMap = barMapOf(midi.tracks, {
    ticksPerQuarter: midi.ticksPerQuarter,
    endTicks,
    assumedKey: key,
    partCount: source.parts.length,
  });
  const end = barMap.bars.at(-1)?.endTicks ?? 0;
  const played = source.parts.map((part) => part.notes.filter(({ startTicks }) => startTicks < end));
  if (headsOf(played, barMap.bars) > limits.notes)
    return unread(fileError('too-many-notes', `Written out, the MIDI file has more than ${limits.notes} notes.`));
  const strums = gatherStrums(played, midi.tracks, midi.ticksPerQuarter);
  const notes = strums.map((part) => part.notes);
  const { quantised, bars } = endingWithNotes(quantise(notes, barMap.bars, midi.ticksPerQuarter, grid), barMap.bars);
  const directions = directionsOf(midi.tracks, bars, quantised.regions);
  const none: typeof directions = new Map();
  const parts = source.parts.map((part, index) =>
    writePart(index, part, quantised.parts[index] ?? [], bars, index === 0 ? directions : none),
  );
  const merged = parts.reduce((sum, part) => sum + part.merged, 0);
  const value = element('score-partwise', { version: '4.0' }, [
    ...(source.title === '' ? [] : [textElement('movement-title', source.title)]),
    element('identification', {}, copyrightOf(midi)),
    element(
      'part-list',
      {},
      parts.map(({ entry }) => entry),
    ),
    ...parts.map(({ part }) => part),
  ]);
  return {
    value: withBeams(value),
    issues: issuesOf({
      midi,
      source,
      barMap,
      quantised,
      assumedKey: isAssumed ? key : null,
      merged,
      strums: strums.reduce((sum, part) => sum + part.strums, 0),
    }),
    grid: quantised.regions,
  };
}

/**
 * A Standard MIDI File of format 0 or 1 as a MusicXML tree: a part for each track (for each channel in format 0), time on the
 * grid that each beat asks for, pitches spelled by their key, values split at the beats. **Errors** as issues of severity
 * `error`: those of openMidi, `no-music` where nothing is played, `too-many-notes`. **Source** Standard MIDI Files 1.0, General
 * MIDI Level 1.
 */
export function midiToMusicXml(bytes: Uint8Array, options: MidiOptions = {}): ReadMidi {
  const midi = openMidi(bytes);
  if (!midi.ok) return unread(midi.refusal);
  const source = sourcePartsOf(midi.value);
  const count = source.parts.reduce((sum, { notes }) => sum + notes.length, 0);
  if (count === 0) return unread(fileError('no-music', 'The MIDI file plays no notes.'));
  if (count > limits.notes)
    return unread(fileError('too-many-notes', `The MIDI file plays more than ${limits.notes} notes.`));
  return read(midi.value, source, options.grid ?? 'auto');
}
