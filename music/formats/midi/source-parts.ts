import type { OpenMidi, TimedEvent } from './open-midi.ts';
import { pairNotes, type PairedNotes, type PlayedNote } from './pair-notes.ts';
import { percussionChannel } from './percussion-key.ts';

/** One part of a MIDI file: what one track, or one channel of it, plays. */
export interface SourcePart {
  readonly name: string;
  readonly isPercussion: boolean;
  /** A General MIDI program, from 0; null where the file sets none. */
  readonly program: number | null;
  readonly notes: readonly PlayedNote[];
  readonly lyrics: ReadonlyMap<number, SungText>;
}

/** A syllable and where it stands in its word. */
export interface SungText {
  readonly text: string;
  readonly syllabic: 'single' | 'begin' | 'middle' | 'end';
}

/** What a file plays, and what was mended or left out of it. */
export interface SourceParts {
  readonly title: string;
  readonly parts: readonly SourcePart[];
  readonly mended: Omit<PairedNotes, 'notes'>;
  readonly leftOut: ReadonlyMap<string, number>;
}

/** MIDI texts are bytes: UTF-8 where they are that, else Latin. */
export function textOfBytes(text: string): string {
  const bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0) & 255);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes).replaceAll('\0', '').trim();
  } catch {
    return text.replaceAll('\0', '').trim();
  }
}

const nameOf = (track: readonly TimedEvent[]): string => {
  const named = track.find(({ event }) => event.type === 'trackName')?.event;
  return named?.type === 'trackName' ? textOfBytes(named.text) : '';
};

const firstProgram = (track: readonly TimedEvent[], channel: number): number | null => {
  const change = track.find(({ event }) => event.type === 'programChange' && event.channel === channel)?.event;
  return change?.type === 'programChange' ? change.programNumber : null;
};

/** Syllables by their moment; a hyphen at the end says that the word goes on. **Source** common practice of karaoke files, from memory. */
function lyricsOf(track: readonly TimedEvent[]): ReadonlyMap<number, SungText> {
  const lyrics = new Map<number, SungText>();
  let isWithin = false;
  for (const { ticks, event } of track) {
    if (event.type !== 'lyrics') continue;
    const [, text = '', hyphen = ''] = /^(.*?)(-?)$/s.exec(textOfBytes(event.text)) ?? [];
    if (text === '') continue;
    const goesOn = hyphen !== '';
    const syllabic = goesOn ? (isWithin ? 'middle' : 'begin') : isWithin ? 'end' : 'single';
    isWithin = goesOn;
    lyrics.set(ticks, { text, syllabic });
  }
  return lyrics;
}

/** What a score has no place for, by what it is called; ends of tracks and the like are nothing to tell. */
const leftOutNames: Readonly<Record<string, string>> = {
  controller: 'controller changes (volume, pedal and the like)',
  pitchBend: 'pitch bends',
  noteAftertouch: 'aftertouch events',
  channelAftertouch: 'aftertouch events',
  sysEx: 'messages for one maker’s instruments',
  endSysEx: 'messages for one maker’s instruments',
  sequencerSpecific: 'events for one program',
  unknownMeta: 'events that are not understood',
  text: 'texts',
  cuePoint: 'cue points',
};

function countLeftOut(track: readonly TimedEvent[], counts: Map<string, number>): void {
  const programs = new Map<number, number>();
  for (const { event } of track) {
    const name = Object.hasOwn(leftOutNames, event.type) ? leftOutNames[event.type] : undefined;
    if (name !== undefined) counts.set(name, (counts.get(name) ?? 0) + 1);
    if (event.type !== 'programChange') continue;
    const before = programs.get(event.channel);
    if (before !== undefined && before !== event.programNumber)
      counts.set('changes of instrument within a part', (counts.get('changes of instrument within a part') ?? 0) + 1);
    programs.set(event.channel, event.programNumber);
  }
}

/** The channels of a track by what plays on them: percussion, and else by program; channels of one track that share a program are one part, as a guitar with a channel for each string has them. */
function channelGroups(track: readonly TimedEvent[], notes: readonly PlayedNote[], joinsChannels: boolean): number[][] {
  const groups = new Map<string, number[]>();
  for (const channel of [...new Set(notes.map((note) => note.channel))].sort((a, b) => a - b)) {
    const isJoined = joinsChannels && channel !== percussionChannel;
    const key = isJoined ? `program ${firstProgram(track, channel) ?? 'none'}` : `channel ${channel}`;
    groups.set(key, [...(groups.get(key) ?? []), channel]);
  }
  return [...groups.values()];
}

interface Track {
  readonly name: string;
  readonly events: readonly TimedEvent[];
  readonly notes: readonly PlayedNote[];
}

function partsOfTrack({ name, events, notes }: Track, joinsChannels: boolean, fallback: string): SourcePart[] {
  const groups = channelGroups(events, notes, joinsChannels);
  const lyrics = lyricsOf(events);
  return groups.map((channels, index): SourcePart => {
    const isPercussion = channels.includes(percussionChannel);
    const [first] = channels;
    const own = name === '' ? fallback : name;
    return {
      name: groups.length === 1 ? own : `${own} (channel ${(first ?? 0) + 1})`,
      isPercussion,
      program: isPercussion || first === undefined ? null : firstProgram(events, first),
      notes: notes.filter(({ channel }) => channels.includes(channel)),
      lyrics: index === 0 ? lyrics : new Map(),
    };
  });
}

/** The parts of a MIDI file: a track each, or a channel each where a file has one track only. */
export function sourcePartsOf(midi: OpenMidi): SourceParts {
  const leftOut = new Map<string, number>();
  const mended = { unended: 0, overlapped: 0, doubled: 0 };
  const tracks = midi.tracks.map((events): Track => {
    const { notes, ...found } = pairNotes(events);
    for (const key of ['unended', 'overlapped', 'doubled'] as const) mended[key] += found[key];
    countLeftOut(events, leftOut);
    return { name: nameOf(events), events, notes };
  });
  const isSingle = midi.format === 0 || tracks.length === 1;
  const opening = tracks[0];
  const title = opening !== undefined && (isSingle || opening.notes.length === 0) ? opening.name : '';
  const parts = tracks.flatMap((track, index) => partsOfTrack(track, !isSingle, `Track ${index + 1}`));
  return { title, parts, mended, leftOut };
}
