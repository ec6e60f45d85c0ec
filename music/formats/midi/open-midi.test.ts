import { expect, it } from 'vitest';
import { openMidi } from './open-midi.ts';

const header = [0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, 1, 0, 1, 0x01, 0xe0];
const middleC = [0x00, 0x90, 60, 80, 0x83, 0x60, 0x80, 60, 0];
/** A quantity of variable length that a signed number of 32 bits takes for −16. */
const fiveBytes = [0x8f, 0xff, 0xff, 0xff, 0x70];

const trackOf = (bytes: readonly number[]): Uint8Array =>
  Uint8Array.from([...header, 0x4d, 0x54, 0x72, 0x6b, 0, 0, 0, bytes.length, ...bytes]);

// Standard MIDI Files 1.0: “the largest number which is allowed is 0FFFFFFF”, four bytes, from memory.
it.each([
  ['length', [0x00, 0xff, 0x01, ...fiveBytes]],
  ['time', [...fiveBytes, 0x90, 62, 80]],
])('reads a track up to a %s of more than four bytes, and says so', (what, damage) => {
  const opened = openMidi(trackOf([...middleC, ...damage, 0x00, 0x90, 64, 80, 0x00, 0xff, 0x2f, 0x00]));
  if (!opened.ok) throw new Error(opened.refusal.detail);
  const { tracks, issues } = opened.value;
  const struck = tracks[0]!.filter(({ event }) => event.type === 'noteOn' || event.type === 'noteOff');
  expect(struck.map(({ ticks, event }) => [ticks, event.type])).toEqual([
    [0, 'noteOn'],
    [480, 'noteOff'],
  ]);
  expect(issues.map(({ detail }) => detail)).toEqual([
    `Track 1 is damaged (a ${what} has more than four bytes); what stands before the damage was read.`,
  ]);
});
