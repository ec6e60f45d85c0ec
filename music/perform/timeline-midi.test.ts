import { createRequire } from 'node:module';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type * as ToneMidi from '@tonejs/midi';
import { anyTwoVoices } from '../../tests/support/any-score.ts';
import { fixedSeed } from '../../tests/support/property-seed.ts';
import { hit, line, meter, note, pickup, rest, voices } from '../../tests/support/score-builders.ts';
import { splitByVoice } from '../../tests/support/split-by-voice.ts';
import { noteId } from '../basis/ids.ts';
import { midiToMusicXml } from '../formats/midi/midi-to-musicxml.ts';
import type { MidiSong } from '../formats/midi/midi-song.ts';
import { writeMidi } from '../formats/midi/write-midi.ts';
import { readMusicXml } from '../formats/musicxml/read-score.ts';
import { serialiseXml } from '../formats/xml/serialise-xml.ts';
import { writeOut } from '../lines/write-out.ts';
import type { Lyric } from '../score/marks.ts';
import type { Score } from '../score/score.ts';
import type { WrittenScore } from '../score/written.ts';
import { midiSongOf, type SongOptions } from './timeline-midi.ts';

// @tonejs/midi, an independent reader of MIDI files (https://github.com/Tonejs/Midi), is a CommonJS package.
const { Midi } = createRequire(import.meta.url)('@tonejs/midi') as typeof ToneMidi;

function written(score: Score): WrittenScore {
  const bars = score.bars;
  const last = bars.at(-1)!;
  const end = { numerator: last.lengthTicks, denominator: score.ticksPerQuarter };
  const excerpt = {
    from: { bar: bars[0]!.id, offset: { numerator: 0, denominator: 1 } },
    to: { bar: last.id, offset: end },
  };
  return writeOut(score, splitByVoice(score), excerpt, { lengths: 'written' }).value;
}

const songOf = (score: Score, repeats: SongOptions['repeats'] = 'unfolded'): MidiSong =>
  midiSongOf(written(score), { repeats });

type Sound = readonly [onset: number, length: number, midi: number];
const byTime = (a: Sound, b: Sound): number => a[0] - b[0] || a[2] - b[2];

const songSounds = (song: MidiSong): Sound[] =>
  song.tracks
    .flatMap(({ notes, hits }) => [...notes, ...hits])
    .map(({ startTicks, lengthTicks, midi }): Sound => [startTicks, lengthTicks, midi])
    .sort(byTime);

function toneSounds(bytes: Uint8Array): Sound[] {
  const { tracks } = new Midi(bytes);
  return tracks
    .flatMap(({ notes }) => notes.map(({ ticks, durationTicks, midi }): Sound => [ticks, durationTicks, midi]))
    .sort(byTime);
}

/** What our own reader makes of a MIDI file. **Units** quarter notes. */
function readBack(bytes: Uint8Array): Score {
  const { value } = midiToMusicXml(bytes);
  const xml = serialiseXml({ doctype: null, before: [], root: value, after: [] });
  const source = { fileName: 'made.mid', firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readMusicXml(new TextEncoder().encode(xml), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join(' '));
  return result.value.score;
}

/** **Units** quarter notes, to a millionth. */
const quartersOf = (song: MidiSong): number[][] =>
  songSounds(song).map(([onset, length, midi]) => [
    ...[onset, length].map((ticks) => Math.round((ticks / song.ticksPerQuarter) * 1e6) / 1e6),
    midi,
  ]);

/** Holds every division below exactly. */
const songTicks = 6720;

/** One quarter: silence, or notes on some of its equal parts, each held to the next one or for one part. */
const anyQuarter = fc.constantFrom(1, 2, 3, 4, 5, 6, 7, 8, 12, 16).chain((parts) =>
  fc
    .array(fc.constantFrom(0, 0, 48, 55, 60, 61, 66, 70, 74), { minLength: parts, maxLength: parts })
    .map((pitches) => ({
      parts,
      pitches,
    })),
);

/** A voice on a grid: quarters one after the other; a note is held to the next one or to the end of its part. */
const anyGridSong = fc
  .tuple(
    fc.constantFrom([4, 4], [3, 4], [2, 4], [2, 2], [5, 4]),
    fc.array(anyQuarter, { minLength: 1, maxLength: 12 }),
    fc.boolean(),
  )
  .map(([[beats = 4, beatUnit = 4], quarters, isHeld]): MidiSong => {
    const onsets = quarters.flatMap(({ parts, pitches }, quarter) =>
      pitches.flatMap((midi, place) =>
        midi === 0
          ? []
          : [{ midi, startTicks: quarter * songTicks + (place * songTicks) / parts, partTicks: songTicks / parts }],
      ),
    );
    const notes = onsets.map(({ midi, startTicks, partTicks }, index) => {
      const next = onsets[index + 1]?.startTicks ?? quarters.length * songTicks;
      const lengthTicks = isHeld ? next - startTicks : partTicks;
      return { midi, startTicks, lengthTicks, velocity: 80 };
    });
    return {
      title: 'On a grid',
      ticksPerQuarter: songTicks,
      lengthTicks: quarters.length * songTicks,
      tempos: [{ ticks: 0, value: 120 }],
      meters: [{ ticks: 0, value: { beats, beatUnit } }],
      keys: [{ ticks: 0, value: { fifths: 0, mode: 'major' } }],
      markers: [],
      tracks: [{ name: 'Voice', program: 25, notes, hits: [], lyrics: [] }],
    };
  })
  .filter(({ tracks }) => (tracks[0]?.notes.length ?? 0) > 0);

describe('verses in MIDI', () => {
  const opening = meter(2, 4);
  const lyric = (id: string, verse: string, text: string, syllabic: Lyric['syllabic'] = 'single'): Lyric => ({
    note: noteId(id),
    verse,
    text,
    syllabic,
    isExtended: false,
  });
  const score: Score = {
    ...voices(
      [
        { meter: opening, startsRepeat: true },
        { meter: opening, endings: [1, 2], repeatTimes: 3 },
        { meter: opening, endings: [3] },
      ],
      [note('C5', 1), note('D5', 1), note('E5', 2), note('F5', 2)],
    ),
    lyrics: [
      lyric('n1', '1', 'mor', 'begin'),
      lyric('n2', '1', 'ning', 'end'),
      lyric('n1', '2', 'noon'),
      lyric('n1', '3', 'eve', 'begin'),
      lyric('n2', '3', 'ning', 'end'),
      lyric('n3', '1', 'sing'),
      lyric('n4', '3', 'rest'),
    ],
  };
  const sung = (repeats: SongOptions['repeats']): readonly string[] =>
    songOf(score, repeats).tracks.flatMap(({ lyrics }) => lyrics.map(({ value }) => value));

  it('are sung one after the other through a repeat, a refrain each time', () => {
    expect(sung('unfolded')).toEqual(['mor-', 'ning', 'sing', 'noon', 'sing', 'eve-', 'ning', 'rest']);
    expect(sung('written')).toEqual(['mor-', 'ning', 'sing', 'rest']);
  });
});

describe('written lines as MIDI', () => {
  it('has a named track for each line, tempo, meter, key and markers (@tonejs/midi reads them)', () => {
    const score = voices(
      [{ meter: meter(3, 4), key: { fifths: -3, mode: 'minor' }, rehearsalMark: 'Verse' }],
      [note('C4', 3), note('D4', 3)],
      [note('C3', 1), rest(2), hit(1), note('E3', 2)],
    );
    const midi = new Midi(writeMidi(songOf(score)));
    expect(midi.header.timeSignatures.map(({ timeSignature }) => timeSignature)).toEqual([[3, 4]]);
    expect(midi.header.keySignatures.map(({ key, scale }) => [key, scale])).toEqual([['Eb', 'minor']]);
    expect(midi.header.tempos.map(({ bpm }) => bpm)).toEqual([100]);
    expect(midi.header.meta.filter(({ type }) => type === 'marker').map(({ text }) => text)).toEqual([
      'Verse',
      'Verse',
    ]);
    expect(midi.tracks.map(({ name }) => name)).toEqual(['P1/1/1', 'P1/1/2', 'hits']);
    expect(midi.tracks.map(({ channel }) => channel)).toEqual([0, 1, 9]);
    expect(midi.tracks[0]?.instrument.name).toBe('acoustic guitar (steel)');
    expect(midi.tracks[2]?.notes.map(({ midi: percussion }) => percussion)).toEqual([36]);
  });

  it('gives each hit the percussion key that its sound is named after (General MIDI Level 1 percussion key map, from memory)', () => {
    // 36 Bass Drum 1, 37 Side Stick, 40 Electric Snare, 42 Closed Hi-Hat; all on channel 10.
    const score = line(meter(4, 4), hit(1, 'lowBody'), hit(1, 'highBody'), hit(1, 'stringSlap'), hit(1, 'deadNote'));
    const struck = new Midi(writeMidi(songOf(score))).tracks.filter(({ notes }) => notes.length > 0);
    expect(struck.map(({ channel }) => channel + 1)).toEqual([10]);
    expect(struck[0]?.notes.map(({ midi: key }) => key)).toEqual([36, 37, 40, 42]);
  });

  it('plays repeats, or writes each bar once', () => {
    const plan = { meter: meter(2, 4) };
    const score = line(
      [{ ...plan, startsRepeat: true }, { ...plan, repeatTimes: 2 }, plan],
      note('C4', 2),
      note('D4', 2),
      note('E4', 2),
    );
    const pitches = (repeats: SongOptions['repeats']): number[] =>
      songSounds(songOf(score, repeats)).map(([, , midi]) => midi);
    expect(pitches('unfolded')).toEqual([60, 62, 60, 62, 64]);
    expect(pitches('written')).toEqual([60, 62, 64]);
  });

  it('counts a pickup as a bar of its own length, and our reader finds the pickup again', () => {
    const song = songOf(line(pickup(meter(4, 4), 1), note('G4', 1), note('C4', 4)));
    expect(song.meters.map(({ value }) => [value.beats, value.beatUnit])).toEqual([
      [1, 4],
      [4, 4],
    ]);
    const score = readBack(writeMidi(song));
    expect(score.bars.map(({ isImplicit, label }) => [isImplicit, label])).toEqual([
      [true, '0'],
      [false, '1'],
    ]);
  });

  it('gives @tonejs/midi the same notes within one tick, whatever is written', () => {
    fc.assert(
      fc.property(anyTwoVoices, (score) => {
        const song = songOf(score);
        const ours = songSounds(song);
        const theirs = toneSounds(writeMidi(song));
        expect(theirs).toHaveLength(ours.length);
        for (const [index, sound] of ours.entries())
          sound.forEach((value, place) =>
            expect(Math.abs(value - (theirs[index]?.[place] ?? NaN))).toBeLessThanOrEqual(1),
          );
      }),
      { numRuns: 60, seed: fixedSeed },
    );
  });

  it('keeps onset, length and pitch from MIDI to score to MIDI, where they are on a grid', () => {
    fc.assert(
      fc.property(anyGridSong, (song) => {
        const again = songOf(readBack(writeMidi(song)), 'written');
        expect(quartersOf(again)).toEqual(quartersOf(song));
      }),
      { numRuns: 150, seed: fixedSeed },
    );
  });
});
