import { parseMidi, type MidiEvent } from 'midi-file';
import type { Issue } from '../../basis/issue.ts';
import { refused, ok, type Result } from '../../basis/result.ts';
import { fileError } from '../file-issue.ts';
import { limits } from '../limits.ts';

/** An event with its place from the start of the file. */
export interface TimedEvent {
  readonly ticks: number;
  readonly event: MidiEvent;
}

/** A Standard MIDI File as its events. */
export interface OpenMidi {
  readonly format: number;
  readonly ticksPerQuarter: number;
  /** Set where the file counts frames of film; `ticksPerQuarter` then stands for half a second. */
  readonly framesPerSecond: number | null;
  readonly tracks: readonly (readonly TimedEvent[])[];
  readonly issues: readonly Issue[];
}

interface Chunk {
  readonly id: string;
  readonly data: Uint8Array;
  readonly isCutOff: boolean;
}

const idAt = (bytes: Uint8Array, at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));

function chunksFrom(bytes: Uint8Array, start: number): Chunk[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const chunks: Chunk[] = [];
  for (let at = start; at + 8 <= bytes.length;) {
    const length = view.getUint32(at + 4);
    const end = at + 8 + length;
    chunks.push({ id: idAt(bytes, at), data: bytes.subarray(at + 8, end), isCutOff: end > bytes.length });
    at = end;
  }
  return chunks;
}

/** Where the header stands: some files are wrapped in a container or carry bytes before it. */
function headerPlace(bytes: Uint8Array): number {
  const reach = Math.min(bytes.length - 4, 1024);
  for (let at = 0; at <= reach; at += 1) if (idAt(bytes, at) === 'MThd') return at;
  return -1;
}

const asChunk = (id: string, data: Uint8Array): Uint8Array => {
  const length = data.length;
  const head = Array.from(id, (letter) => letter.charCodeAt(0));
  return Uint8Array.from([...head, length >>> 24, (length >>> 16) & 255, (length >>> 8) & 255, length & 255, ...data]);
};

/** Bytes that are only read forwards. The library adds up lengths of any number of bytes, so that a damaged one can fall below zero and send it back, for ever. **Source** Standard MIDI Files 1.0: a length has at most four bytes. */
class ForwardBytes extends Uint8Array {
  override slice(start = 0, end = this.length): ReturnType<Uint8Array['slice']> {
    if (end < start) throw new Error('a length has more than four bytes');
    return super.slice(start, end);
  }
}

/** The events of one track, read as a file of its own so that a broken track spoils no other. */
function eventsOf(header: Uint8Array, data: Uint8Array): readonly MidiEvent[] | string {
  const chunk = new Uint8Array(data.length + 8);
  chunk.set(asChunk('MTrk', new Uint8Array(0)));
  chunk.set([data.length >>> 24, (data.length >>> 16) & 255, (data.length >>> 8) & 255, data.length & 255], 4);
  chunk.set(data, 8);
  const file = new ForwardBytes(header.length + chunk.length);
  file.set(header);
  file.set(chunk, header.length);
  try {
    const events = parseMidi(file).tracks[0] ?? [];
    return events.some(({ deltaTime }) => deltaTime < 0) ? 'a time has more than four bytes' : events;
  } catch (thrown) {
    return thrown instanceof Error ? thrown.message : String(thrown);
  }
}

const isSound = (value: number | undefined): boolean => value !== undefined && Number.isFinite(value);

/** Whether an event holds all of its bytes; the end of a cut-off track may lack some. */
function isWhole(event: MidiEvent): boolean {
  if (event.type === 'noteOn' || event.type === 'noteOff')
    return isSound(event.noteNumber) && isSound(event.velocity) && event.noteNumber <= 127;
  if (event.type === 'setTempo') return event.microsecondsPerBeat > 0;
  if (event.type === 'timeSignature') return event.numerator > 0 && event.denominator > 0;
  if (event.type === 'keySignature') return isSound(event.key) && isSound(event.scale);
  return true;
}

function timed(events: readonly MidiEvent[]): TimedEvent[] {
  let ticks = 0;
  const placed: TimedEvent[] = [];
  for (const event of events) {
    ticks += event.deltaTime;
    if (isWhole(event)) placed.push({ ticks, event });
    if (event.type === 'endOfTrack') break;
  }
  return placed;
}

const warning = (detail: string): Issue => ({
  code: 'value-repaired',
  severity: 'warning',
  where: { kind: 'file' },
  detail,
});

/** As much of a damaged track as can be read: it is cut at the end again and again until what is left makes sense. */
function readable(
  header: Uint8Array,
  data: Uint8Array,
): { readonly events: readonly MidiEvent[]; readonly problem: string | null } {
  const whole = eventsOf(header, data);
  if (typeof whole !== 'string') return { events: whole, problem: null };
  let low = 0;
  let high = data.length;
  let best: readonly MidiEvent[] = [];
  while (low < high - 1) {
    const middle = (low + high) >> 1;
    const events = eventsOf(header, data.subarray(0, middle));
    if (typeof events === 'string') high = middle;
    else {
      low = middle;
      best = events;
    }
  }
  return { events: best, problem: whole };
}

function divisionOf(division: number): { readonly ticksPerQuarter: number; readonly framesPerSecond: number | null } {
  if ((division & 0x8000) === 0) return { ticksPerQuarter: division, framesPerSecond: null };
  const framesPerSecond = 0x100 - (division >> 8);
  const perSecond = (framesPerSecond === 29 ? 29.97 : framesPerSecond) * (division & 0xff);
  return { ticksPerQuarter: perSecond / 2, framesPerSecond };
}

interface Header {
  readonly bytes: Uint8Array;
  readonly format: number;
  readonly trackCount: number;
  readonly division: ReturnType<typeof divisionOf>;
}

function headerOf(chunk: Chunk): Header {
  const view = new DataView(chunk.data.buffer, chunk.data.byteOffset, chunk.data.byteLength);
  const [format, trackCount, division] = [view.getUint16(0), view.getUint16(2), view.getUint16(4)];
  const bytes = asChunk('MThd', Uint8Array.from([0, 1, 0, 1, chunk.data[4] ?? 0, chunk.data[5] ?? 0]));
  return { bytes, format, trackCount, division: divisionOf(division) };
}

function readTracks(header: Header, chunks: readonly Chunk[], issues: Issue[]): TimedEvent[][] {
  const tracks: TimedEvent[][] = [];
  for (const { id, data, isCutOff } of chunks) {
    if (id !== 'MTrk') continue;
    const { events, problem } = readable(header.bytes, data);
    const place = `Track ${tracks.length + 1}`;
    if (isCutOff) issues.push(warning(`${place} ends before its stated length; what is there was read.`));
    if (problem !== null)
      issues.push(warning(`${place} is damaged (${problem}); what stands before the damage was read.`));
    tracks.push(timed(events));
  }
  if (tracks.length < header.trackCount)
    issues.push(warning(`The file promises ${header.trackCount} tracks and holds ${tracks.length}.`));
  return tracks;
}

/** A MIDI file as its events. **Errors** `file-unsupported` where no header is found or the file holds several songs, `file-too-large`, `file-unreadable` where it says no resolution. **Source** Standard MIDI Files 1.0. */
export function openMidi(bytes: Uint8Array): Result<OpenMidi, Issue> {
  if (bytes.length > limits.packedBytes)
    return refused(fileError('file-too-large', `The file is larger than ${limits.packedBytes} bytes.`));
  const start = headerPlace(bytes);
  if (start < 0) return refused(fileError('file-unsupported', 'The file is no MIDI file: it has no MThd header.'));
  const [first, ...others] = chunksFrom(bytes, start);
  if (first === undefined || first.data.length < 6)
    return refused(fileError('file-unreadable', 'The MIDI file ends within its header.'));
  const header = headerOf(first);
  if (header.format > 1)
    return refused(
      fileError('file-unsupported', `The file is a MIDI file of format ${header.format}; formats 0 and 1 are read.`),
    );
  if (!(header.division.ticksPerQuarter > 0))
    return refused(fileError('file-unreadable', 'The MIDI file says that a quarter note has no ticks.'));
  const issues: Issue[] = [];
  const tracks = readTracks(header, others, issues);
  return ok({ format: header.format, ...header.division, tracks, issues });
}
