import type { Draw } from './draw.ts';
import { joined, type Mutation } from './mutation.ts';

const headerLength = 14;
const firstEventAt = headerLength + 8;

function withHeader(bytes: Uint8Array, at: number, value: number): Uint8Array {
  const changed = bytes.slice();
  new DataView(changed.buffer).setUint16(at, value);
  return changed;
}

const into = (bytes: Uint8Array, at: number, put: readonly number[]): Uint8Array =>
  joined(bytes.subarray(0, at), Uint8Array.from(put), bytes.subarray(at));

const nearAnEvent = (bytes: Uint8Array, draw: Draw): number =>
  firstEventAt + draw.below(bytes.byteLength - firstEventAt);

const events: readonly (readonly number[])[] = [
  [0xff, 0xff, 0xff, 0x7f, 0x90, 60, 100], // the longest wait that a file can say, then a note
  [0x00, 0xff, 0x51, 0x03, 0, 0, 0], // a tempo of no time
  [0x00, 0xff, 0x51, 0x03, 0xff, 0xff, 0xff], // the slowest tempo
  [0x00, 0xff, 0x58, 0x04, 0, 255, 0, 0], // a meter of no beats over two to the 255th
  [0x00, 0xff, 0x58, 0x04, 255, 0, 24, 8],
  [0x00, 0xff, 0x59, 0x02, 127, 9], // 127 sharps
  [0x00, 0xff, 0x2f, 0x00], // the end of the track, too early
  [0x00, 0xf0, 0xff, 0xff, 0xff, 0x7f], // a message of an exclusive system that claims 256 MB
  [0x00, 0xff, 0x01, 0xff, 0xff, 0xff, 0x7f], // a text that claims as much
  [0x00, 0x40, 0x40], // data without a status
  [0x00, 0xff, 0x54, 0x05, 99, 99, 99, 99, 99],
];

/** Damage to MIDI files that knows what it breaks. */
export const midiMutations: readonly Mutation[] = [
  { name: 'another format named', apply: (bytes, draw) => withHeader(bytes, 8, draw.pick([0, 1, 2, 3, 65_535])) },
  { name: 'tracks miscounted', apply: (bytes, draw) => withHeader(bytes, 10, draw.pick([0, 2, 100, 65_535])) },
  {
    name: 'divisions that cannot be',
    apply: (bytes, draw) => withHeader(bytes, 12, draw.pick([0, 1, 0x7fff, 0x8000, 0xe728, 0xffff])),
  },
  {
    name: 'track length that lies',
    apply: (bytes, draw) => {
      const changed = bytes.slice();
      new DataView(changed.buffer).setUint32(headerLength + 4, draw.pick([0, 1, 10, 0x7fffffff, 0xffffffff]));
      return changed;
    },
  },
  { name: 'events that cannot be', apply: (bytes, draw) => into(bytes, nearAnEvent(bytes, draw), draw.pick(events)) },
  {
    name: 'events that cannot be, at the front',
    apply: (bytes, draw) => into(bytes, firstEventAt, [...draw.pick(events), ...draw.pick(events)]),
  },
  {
    name: 'a flood of notes',
    isHeavy: true,
    apply: (bytes) =>
      into(bytes, firstEventAt, Array.from({ length: 50_001 }, () => [1, 0x90, 60, 100, 1, 0x80, 60, 0]).flat()),
  },
  {
    name: 'notes that never end',
    apply: (bytes) => Uint8Array.from(bytes, (byte) => (byte === 0x80 ? 0x90 : byte)),
  },
];
