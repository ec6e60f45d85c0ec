import { closeSync, mkdirSync, openSync, readSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { Zip, ZipPassThrough } from 'fflate';
import {
  activeLines,
  arrangementOf,
  partId,
  readNormalised,
  renderedSeconds,
  splitFromSnapshot,
} from '../../music/index.ts';
import {
  openTrack,
  recordSound,
  soundFileNames,
  stemsOrderOf,
  type FileSource,
  type Sink,
} from '../../recording/index.ts';
import type { NothingRendered, Rendered, SoundJob } from './jobs.ts';

/** Longer sound is refused: it would keep everybody else waiting. **Units** seconds. */
const longestSeconds = 1200;
const pieceBytes = 1 << 20;

function fileSink(path: string, opened: number[]): Sink {
  const handle = openSync(path, 'w');
  opened.push(handle);
  return { write: (bytes, at) => void writeSync(handle, bytes, 0, bytes.length, at) };
}

function packInto(target: string, folder: string, names: readonly string[]): void {
  const handle = openSync(target, 'w');
  const zip = new Zip((error, bytes) => {
    if (error !== null) throw error;
    writeSync(handle, bytes);
  });
  for (const name of names) {
    const entry = new ZipPassThrough(name);
    zip.add(entry);
    const source = openSync(join(folder, name), 'r');
    for (;;) {
      const piece = new Uint8Array(pieceBytes);
      const count = readSync(source, piece);
      entry.push(piece.subarray(0, count), count === 0);
      if (count === 0) break;
    }
    closeSync(source);
  }
  zip.end();
  closeSync(handle);
}

/** Renders what is wished for into the job's file. */
export async function renderSound(
  job: SoundJob,
  onShare: (share: number) => void,
): Promise<Rendered | NothingRendered> {
  const { wish, target } = job;
  const score = arrangementOf(readNormalised(job.normalisedXml).value, job.parts.map(partId));
  const split = splitFromSnapshot(job.split);
  const stems = stemsOrderOf(score, split, {
    excerpt: wish.excerpt,
    isUnfolded: wish.repeats === 'unfolded',
    mix: wish.mix,
    playing: job.playing,
    tempoPercent: wish.tempoPercent,
    countInBars: wish.countInBars,
    click: { isOn: wish.click === 'with', subdivision: 1 },
  });
  if (stems === null || stems.performance.lengthSeconds === 0) return { kind: 'nothingRendered', why: 'noSuchBars' };
  if (renderedSeconds(stems) > longestSeconds) return { kind: 'nothingRendered', why: 'tooLong' };
  const nameOf = soundFileNames(activeLines(split), wish.format);
  const folder = `${target}.parts`;
  mkdirSync(folder, { recursive: true });
  const opened: number[] = [];
  const isOne = wish.files === 'mix';
  const order = {
    stems,
    hasStems: !isOne,
    format: wish.format,
    targetLufs: wish.loudnessLufs,
    mostKeptBytes: 0, // how much memory there is is for whoever runs the server to say
  };
  const sinkOf = (source: FileSource): Sink => fileSink(isOne ? target : join(folder, nameOf(source)), opened);
  const { files, lengthSeconds } = await recordSound(
    order,
    (source, encoding) => openTrack(encoding, sinkOf(source)),
    onShare,
  );
  for (const handle of opened) closeSync(handle);
  const names = files.map(({ source }) => nameOf(source));
  if (!isOne) packInto(target, folder, names);
  rmSync(folder, { recursive: true, force: true });
  const sounds = files.map(({ source, levels }) => ({ holds: source, name: nameOf(source), ...levels }));
  return { kind: 'rendered', sounds, lengthSeconds };
}
