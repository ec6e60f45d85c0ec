import { writeMidi as encode, type MidiEvent } from 'midi-file';
import { percussionChannel } from './percussion-key.ts';
import type { MidiSong, SongChange, SongNote, SongTrack } from './midi-song.ts';

/** An event that waits for its place among the others; of those at one moment the lowest rank comes first. */
interface Placed {
  readonly ticks: number;
  readonly rank: number;
  readonly event: MidiEvent;
}

const ranks = { meta: 0, noteOff: 1, noteOn: 2 } as const;

/** MIDI texts are bytes: UTF-8, a letter for each. */
function bytesOfText(text: string): string {
  const whole = text.replace(/\p{Surrogate}/gu, '\uFFFD');
  return encodeURIComponent(whole).replace(/%([0-9A-F]{2})/g, (_, code: string) =>
    String.fromCharCode(parseInt(code, 16)),
  );
}

const metaAt = <Value>(changes: readonly SongChange<Value>[], eventOf: (value: Value) => MidiEvent): Placed[] =>
  changes.map(({ ticks, value }) => ({ ticks, rank: ranks.meta, event: eventOf(value) }));

const tempoEvent = (quartersPerMinute: number): MidiEvent => ({
  deltaTime: 0,
  meta: true,
  type: 'setTempo',
  microsecondsPerBeat: Math.min(0xffffff, Math.max(1, Math.round(60_000_000 / quartersPerMinute))),
});

/** A click for each quarter, or for each dotted quarter in compound time. **Units** 24 clocks to a quarter. */
const clocksOf = (beats: number, beatUnit: number): number =>
  beatUnit >= 8 && beats % 3 === 0 ? (3 * 96) / beatUnit : Math.min(255, 96 / beatUnit);

const meterEvent = ({ beats, beatUnit }: { readonly beats: number; readonly beatUnit: number }): MidiEvent => ({
  deltaTime: 0,
  meta: true,
  type: 'timeSignature',
  numerator: beats,
  denominator: beatUnit,
  metronome: Math.max(1, Math.round(clocksOf(beats, beatUnit))),
  thirtyseconds: 8,
});

/** The events of a track one after the other, each with its distance from the one before. */
function inOrder(placed: readonly Placed[], endTicks: number): MidiEvent[] {
  const sorted = [...placed].sort((a, b) => a.ticks - b.ticks || a.rank - b.rank);
  let at = 0;
  const events = sorted.map(({ ticks, event }): MidiEvent => {
    const deltaTime = ticks - at;
    at = ticks;
    return { ...event, deltaTime };
  });
  return [...events, { deltaTime: Math.max(0, endTicks - at), meta: true, type: 'endOfTrack' }];
}

const nameEvent = (name: string): Placed => ({
  ticks: 0,
  rank: -1,
  event: { deltaTime: 0, meta: true, type: 'trackName', text: bytesOfText(name) },
});

function conductorTrack(song: MidiSong): MidiEvent[] {
  const placed = [
    nameEvent(song.title),
    ...metaAt(song.meters, meterEvent),
    ...metaAt(song.keys, ({ fifths, mode }) => ({
      deltaTime: 0,
      meta: true,
      type: 'keySignature',
      key: fifths,
      scale: mode === 'minor' ? 1 : 0,
    })),
    ...metaAt(song.tempos, tempoEvent),
    ...metaAt(song.markers, (text) => ({ deltaTime: 0, meta: true, type: 'marker', text: bytesOfText(text) })),
  ];
  return inOrder(placed, song.lengthTicks);
}

/** Sixteen channels but the one for percussion, given out in turn. */
function channelAt(index: number): number {
  const channel = index % 15;
  return channel >= percussionChannel ? channel + 1 : channel;
}

const noteEvents = (notes: readonly SongNote[], channel: number): Placed[] =>
  notes.flatMap(({ startTicks, lengthTicks, midi, velocity }) => [
    {
      ticks: startTicks,
      rank: ranks.noteOn,
      event: { deltaTime: 0, type: 'noteOn', channel, noteNumber: midi, velocity },
    },
    {
      ticks: startTicks + Math.max(1, lengthTicks),
      rank: ranks.noteOff,
      event: { deltaTime: 0, type: 'noteOff', channel, noteNumber: midi, velocity: 0 },
    },
  ]);

function musicTrack(track: SongTrack, index: number, endTicks: number): MidiEvent[] {
  const channel = channelAt(index);
  const program: Placed = {
    ticks: 0,
    rank: ranks.meta,
    event: { deltaTime: 0, type: 'programChange', channel, programNumber: track.program },
  };
  const placed = [
    nameEvent(track.name),
    ...(track.notes.length > 0 || track.hits.length === 0 ? [program] : []),
    ...metaAt(track.lyrics, (text) => ({ deltaTime: 0, meta: true, type: 'lyrics', text: bytesOfText(text) })),
    ...noteEvents(track.notes, channel),
    ...noteEvents(track.hits, percussionChannel),
  ];
  return inOrder(placed, endTicks);
}

/** A song as the bytes of a MIDI file of format 1: a track for tempo, meter, key and markers, then a named track for each of its own. **Source** Standard MIDI Files 1.0. */
export function writeMidi(song: MidiSong): Uint8Array {
  const tracks = [
    conductorTrack(song),
    ...song.tracks.map((track, index) => musicTrack(track, index, song.lengthTicks)),
  ];
  const header = { format: 1 as const, numTracks: tracks.length, ticksPerBeat: song.ticksPerQuarter };
  return Uint8Array.from(encode({ header, tracks }));
}
