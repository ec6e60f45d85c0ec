import { writeMidi, type MidiEvent } from 'midi-file';
import { describe, expect, it } from 'vitest';
import type { Score } from '../../score/score.ts';
import { readMusicXml } from '../musicxml/read-score.ts';
import { serialiseXml } from '../xml/serialise-xml.ts';
import { midiToMusicXml, type MidiOptions, type ReadMidi } from './midi-to-musicxml.ts';

const ppq = 480;

type Placed = readonly [ticks: number, event: Record<string, unknown>];

/** A track from events at moments. */
function track(...placed: readonly Placed[]): MidiEvent[] {
  let at = 0;
  const sorted = placed.map((one, index) => ({ one, index }));
  sorted.sort((a, b) => a.one[0] - b.one[0] || a.index - b.index);
  const events = sorted.map(({ one: [ticks, event] }) => {
    const deltaTime = ticks - at;
    at = ticks;
    return { ...event, deltaTime } as unknown as MidiEvent;
  });
  return [...events, { deltaTime: 0, type: 'endOfTrack', meta: true }];
}

const note = (midi: number, start: number, length: number, channel = 0): readonly Placed[] => [
  [start, { type: 'noteOn', noteNumber: midi, velocity: 80, channel }],
  [start + length, { type: 'noteOff', noteNumber: midi, velocity: 0, channel }],
];
const meter = (ticks: number, numerator: number, denominator: number): Placed => [
  ticks,
  { type: 'timeSignature', meta: true, numerator, denominator, metronome: 24, thirtyseconds: 8 },
];
const key = (ticks: number, fifths: number, scale = 0): Placed => [
  ticks,
  { type: 'keySignature', meta: true, key: fifths, scale },
];
const text = (ticks: number, type: string, words: string): Placed => [ticks, { type, meta: true, text: words }];
const tempo = (ticks: number, quartersPerMinute: number): Placed => [
  ticks,
  { type: 'setTempo', meta: true, microsecondsPerBeat: Math.round(60_000_000 / quartersPerMinute) },
];

const file = (tracks: readonly MidiEvent[][], header: Record<string, unknown> = { ticksPerBeat: ppq }): Uint8Array =>
  Uint8Array.from(
    writeMidi({ header: { format: 1, numTracks: tracks.length, ...header }, tracks: [...tracks] }, { running: true }),
  );

interface Both extends ReadMidi {
  readonly score: Score;
  readonly xml: string;
}

function read(bytes: Uint8Array, options: MidiOptions = {}): Both {
  const midi = midiToMusicXml(bytes, options);
  const xml = serialiseXml({ doctype: null, before: [], root: midi.value, after: [] });
  const source = { fileName: 'made.mid', firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readMusicXml(new TextEncoder().encode(xml), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join(' '));
  return { ...midi, score: result.value.score, xml };
}

/** Pitch, onset and length in quarters. */
const sounds = ({ score }: Both): readonly (readonly [number | string, number, number])[] =>
  score.notes.map(({ sound, onsetTicks, lengthTicks }) => [
    sound.kind === 'pitched' ? sound.soundingMidi : sound.hit,
    onsetTicks / score.ticksPerQuarter,
    lengthTicks / score.ticksPerQuarter,
  ]);

const details = ({ issues }: ReadMidi): string => issues.map(({ detail }) => detail).join('\n');

describe('reading MIDI files', () => {
  it('makes a part of each track, with its name, and bars of the meters (Standard MIDI Files 1.0, format 1)', () => {
    const both = read(
      file([
        track(
          text(0, 'trackName', 'Evening at the Mill'),
          meter(0, 3, 4),
          key(0, 1),
          tempo(0, 90),
          meter(3 * ppq, 6, 8),
        ),
        track(text(0, 'trackName', 'Upper'), ...note(67, 0, ppq), ...note(66, ppq, 2 * ppq)),
        track(text(0, 'trackName', 'Lower'), ...note(43, 0, 3 * ppq), ...note(50, 3 * ppq, 3 * ppq)),
      ]),
    );
    expect(both.score.title).toBe('Evening at the Mill');
    expect(both.score.parts.map(({ name }) => name)).toEqual(['Upper', 'Lower']);
    expect(both.score.bars.map(({ meter: m, key: k }) => [m.beats, m.beatUnit, k.fifths])).toEqual([
      [[3], 4, 1],
      [[6], 8, 1],
    ]);
    expect(both.score.tempos).toEqual([{ onsetTicks: 0, quartersPerMinute: 90 }]);
    expect(sounds(both)).toEqual([
      [67, 0, 1],
      [43, 0, 3],
      [66, 1, 2],
      [50, 3, 3],
    ]);
  });

  it('makes a part of each channel of format 0, channel 10 as hits (General MIDI Level 1, percussion)', () => {
    const both = read(
      file([track(...note(64, 0, ppq, 0), ...note(40, 0, ppq, 1), ...note(36, 0, 10, 9), ...note(37, ppq, 10, 9))], {
        format: 0,
        ticksPerBeat: ppq,
      }),
    );
    expect(both.score.parts).toHaveLength(3);
    expect(sounds(both).map(([what]) => what)).toEqual([64, 40, 'lowBody', 'highBody']);
  });

  it('joins the channels of one track that share a program, as a guitar with a channel for each string has them', () => {
    const program = (channel: number): Placed => [0, { type: 'programChange', channel, programNumber: 25 }];
    const both = read(file([track(program(0), program(1), ...note(64, 0, ppq, 0), ...note(40, 0, ppq, 1))]));
    expect(both.score.parts).toHaveLength(2);
    const two = read(
      file([track(tempo(0, 80)), track(program(0), program(1), ...note(64, 0, ppq, 0), ...note(40, 0, ppq, 1))]),
    );
    expect(two.score.parts).toHaveLength(1);
    expect(sounds(two).map(([what]) => what)).toEqual([64, 40]);
  });

  it('keeps thirds, fifths, sevenths and sixteenths where the file is exact', () => {
    const lengths = [
      1 / 3,
      1 / 3,
      1 / 3,
      0.25,
      0.25,
      0.5,
      0.2,
      0.2,
      0.2,
      0.2,
      0.2,
      1 / 6,
      1 / 6,
      2 / 3,
      0.0625,
      0.9375,
    ];
    const fine = 1680;
    let at = 0;
    const placed = lengths.flatMap((length) => {
      const start = at;
      at += Math.round(length * fine);
      return note(60, start, at - start);
    });
    const both = read(file([track(...placed)], { ticksPerBeat: fine }));
    expect(both.score.notes.map(({ lengthTicks }) => lengthTicks / both.score.ticksPerQuarter)).toEqual(
      lengths.map((length) => expect.closeTo(length, 6) as number),
    );
    expect(both.grid).toEqual([
      { firstBar: 1, lastBar: 1, kind: 'mixed' },
      { firstBar: 2, lastBar: 2, kind: 'straight' },
    ]);
  });

  it('takes the jitter of a player out of onsets and ends', () => {
    const jitter = [7, -9, 12, -4, 10, 3, -11, 6];
    const placed = jitter.flatMap((late, index) => note(60 + index, 480 + index * 240 + late, 205 - late));
    const both = read(file([track(...placed)]));
    expect(sounds(both).map(([, onset, length]) => [onset, length])).toEqual(
      jitter.map((_, index) => [1 + index * 0.5, 0.5]),
    );
    expect(details(both)).toContain('Moved to the grid: 8 beginnings');
  });

  const swungLine = Array.from({ length: 8 }, (_, beat) => [
    ...note(60, beat * ppq, 320),
    ...note(62, beat * ppq + 320, 160),
  ]).flat();

  it('reads swung eighths as straight ones and says so; the grid is shown and can be changed', () => {
    const swung = read(file([track(...swungLine)]));
    expect(swung.grid).toEqual([{ firstBar: 1, lastBar: 2, kind: 'swing' }]);
    expect(sounds(swung).map(([, onset]) => onset)).toEqual(Array.from({ length: 16 }, (_, index) => index / 2));
    expect(details(swung)).toContain('Bars 1 to 2 are played with swing');
    expect(swung.xml).toContain('<swing><first>2</first><second>1</second>');
    const triplets = read(file([track(...swungLine)]), { grid: 'triplet' });
    expect(triplets.grid).toEqual([{ firstBar: 1, lastBar: 2, kind: 'triplet' }]);
    expect(sounds(triplets)[1]?.[1]).toBeCloseTo(2 / 3, 9);
    const straight = read(file([track(...swungLine)]), { grid: 'straight' });
    expect(straight.grid[0]?.kind).toBe('straight');
  });

  it('ends a note where its pitch is struck again, holds one that never ends, and tells both', () => {
    const both = read(
      file([
        track(
          [0, { type: 'noteOn', noteNumber: 60, velocity: 80, channel: 0 }],
          [ppq, { type: 'noteOn', noteNumber: 60, velocity: 80, channel: 0 }],
          [ppq + 20, { type: 'noteOff', noteNumber: 60, velocity: 0, channel: 0 }],
          [2 * ppq, { type: 'noteOff', noteNumber: 60, velocity: 0, channel: 0 }],
          [2 * ppq, { type: 'noteOn', noteNumber: 64, velocity: 80, channel: 0 }],
          ...note(67, 3 * ppq, ppq),
        ),
      ]),
    );
    expect(sounds(both)).toEqual([
      [60, 0, 1],
      [60, 1, 1],
      [64, 2, 2],
      [67, 3, 1],
    ]);
    expect(details(both)).toContain('One note never ends');
    expect(details(both)).toContain('One note sounds on when the same pitch is struck again');
  });

  it('spells by the key: a raised seventh in A minor, flats in A flat major (common practice)', () => {
    const spelled = (fifths: number, scale: number, midi: number): string => {
      const both = read(file([track(key(0, fifths, scale), ...note(midi, 0, ppq))]));
      const [first] = both.score.notes;
      if (first?.sound.kind !== 'pitched') throw new Error('no pitch');
      const { step, alter, octave } = first.sound.written;
      return `${step}${alter}/${octave}`;
    };
    expect(spelled(0, 1, 68)).toBe('G1/4');
    expect(spelled(-4, 0, 68)).toBe('A-1/4');
    expect(spelled(6, 0, 65)).toBe('E1/4');
    expect(spelled(7, 0, 60)).toBe('B1/3');
    expect(spelled(-7, 0, 59)).toBe('C-1/4');
  });

  it('takes the likeliest signature where the file names none, and says so', () => {
    const scale = [64, 66, 68, 69, 71, 73, 75, 76];
    const both = read(file([track(...scale.flatMap((midi, index) => note(midi, index * ppq, ppq)))]));
    expect(both.score.bars[0]?.key.fifths).toBe(4);
    expect(details(both)).toContain('4 sharps');
  });

  it('ties over beats and bar lines: the values are those that a reader expects', () => {
    const both = read(file([track(...note(60, ppq / 2, ppq), ...note(62, 1.5 * ppq, 3.5 * ppq))]));
    const printed = [
      ...both.xml.matchAll(/<duration>(\d+)<\/duration>(?:<tie[^>]*>)*<voice>1<\/voice>(?:<type>(\w+)<\/type>)?/g),
    ];
    expect(printed.map(([, duration, type]) => `${duration} ${type}`)).toEqual([
      '840 eighth',
      '840 eighth',
      '840 eighth',
      '840 eighth',
      '3360 half',
      '1680 quarter',
      '1680 quarter',
      '3360 half',
    ]);
    expect(sounds(both)).toEqual([
      [60, 0.5, 1],
      [62, 1.5, 3.5],
    ]);
  });

  it('reads a first bar that is shorter than its meter as a pickup', () => {
    const both = read(file([track(meter(0, 1, 4), meter(ppq, 3, 4), ...note(67, 0, ppq), ...note(60, ppq, 3 * ppq))]));
    expect(both.score.bars.map(({ label, isImplicit, meter: m }) => [label, isImplicit, m.beats])).toEqual([
      ['0', true, [3]],
      ['1', false, [3]],
    ]);
  });

  it('makes rehearsal marks of markers and puts tempos where they stand', () => {
    const both = read(
      file([
        track(text(4 * ppq, 'marker', 'Chorus'), tempo(0, 100), tempo(2 * ppq, 50)),
        track(...note(60, 0, 8 * ppq)),
      ]),
    );
    expect(both.score.bars.map(({ rehearsalMark }) => rehearsalMark)).toEqual([null, 'Chorus']);
    const { ticksPerQuarter } = both.score;
    expect(both.score.tempos).toEqual([
      { onsetTicks: 0, quartersPerMinute: 100 },
      { onsetTicks: 2 * ticksPerQuarter, quartersPerMinute: 50 },
    ]);
  });

  it('takes half a second for a quarter where time is counted in frames, and says so (SMPTE division)', () => {
    const bytes = file([track(...note(60, 0, 500), ...note(62, 500, 500))], { framesPerSecond: 25, ticksPerFrame: 40 });
    const both = read(bytes);
    expect(sounds(both)).toEqual([
      [60, 0, 1],
      [62, 1, 1],
    ]);
    expect(details(both)).toContain('25 a second');
  });

  it('reads the sound tracks of a file that is cut off, and refuses what is no MIDI file', () => {
    const whole = file([track(...note(60, 0, ppq)), track(...note(64, 0, ppq), ...note(65, ppq, ppq))]);
    const cut = read(whole.subarray(0, whole.length - 12));
    expect(sounds(cut).map(([what]) => what)).toContain(60);
    expect(details(cut)).toMatch(/ends before its stated length/);
    for (const bytes of [new Uint8Array(0), new TextEncoder().encode('X:1'), whole.subarray(0, 11)]) {
      const refusal = midiToMusicXml(bytes);
      expect(refusal.issues.map(({ severity }) => severity)).toEqual(['error']);
      expect(refusal.value.children).toEqual([]);
    }
  });

  it('refuses two songs in one file and a file without notes', () => {
    const bytes = file([track(...note(60, 0, ppq))]);
    const second = bytes.slice();
    second[9] = 2;
    expect(midiToMusicXml(second).issues[0]?.code).toBe('file-unsupported');
    expect(midiToMusicXml(file([track(tempo(0, 100))])).issues[0]?.code).toBe('no-music');
  });
});
