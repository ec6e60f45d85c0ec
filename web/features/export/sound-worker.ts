import { Zip, ZipPassThrough } from 'fflate';
import { activeLines, type Score, type SoundLevels, type Split } from '../../../music/index.ts';
import {
  openTrack,
  recordSound,
  soundFileNames,
  soundMediaTypes,
  stemsOrderOf,
  type FileSource,
  type SoundFormat,
  type SoundWish,
} from '../../../recording/index.ts';
import { PieceSink } from './piece-sink.ts';

/** What the worker is asked. */
export interface SoundRequest {
  readonly score: Score;
  readonly split: Split;
  readonly wish: SoundWish;
  readonly hasStems: boolean;
  readonly format: SoundFormat;
  readonly targetLufs: number | null;
}

/** A sound within what was made. */
export interface SoundInFile {
  readonly source: FileSource;
  readonly name: string;
  readonly levels: SoundLevels;
}

/** What the worker answers: how far it is, the file, or why there is none. */
export type SoundAnswer =
  | { readonly type: 'share'; readonly share: number }
  | { readonly type: 'made'; readonly blob: Blob; readonly sounds: readonly SoundInFile[]; readonly seconds: number }
  | { readonly type: 'nothing' }
  | { readonly type: 'failed'; readonly why: string };

/** The part of a worker's global scope that is used; the page's own types are in force here. */
declare const self: {
  addEventListener(type: 'message', listener: (event: MessageEvent<SoundRequest>) => void): void;
  postMessage(answer: SoundAnswer): void;
};

/** Four minutes of four lines; longer sound is played twice where its loudness is to be matched. */
const mostKeptBytes = 400 << 20;

/** Packs files one after the other, giving up each as soon as it is in. */
function zipOf(files: readonly { readonly name: string; readonly sink: PieceSink }[]): Blob {
  const parts: Uint8Array<ArrayBuffer>[] = [];
  const zip = new Zip((error, bytes) => {
    if (error !== null) throw error;
    parts.push(bytes);
  });
  for (const { name, sink } of files) {
    const entry = new ZipPassThrough(name);
    zip.add(entry);
    for (const piece of sink.take()) entry.push(piece);
    entry.push(new Uint8Array(0), true);
  }
  zip.end();
  return new Blob(parts, { type: 'application/zip' });
}

async function answerTo(request: SoundRequest): Promise<SoundAnswer> {
  const { score, split, wish, format } = request;
  const stems = stemsOrderOf(score, split, wish);
  if (stems === null || stems.performance.lengthSeconds === 0) return { type: 'nothing' };
  const nameOf = soundFileNames(activeLines(split), format);
  const sinks = new Map<FileSource, PieceSink>();
  let told = 0;
  const { files, lengthSeconds } = await recordSound(
    { stems, hasStems: request.hasStems, format, targetLufs: request.targetLufs, mostKeptBytes },
    (source, encoding) => {
      const sink = new PieceSink();
      sinks.set(source, sink);
      return openTrack(encoding, sink);
    },
    (share) => {
      if (share - told < 0.01) return;
      told = share;
      self.postMessage({ type: 'share', share });
    },
  );
  const sounds = files.map(({ source, levels }) => ({ source, name: nameOf(source), levels }));
  const named = [...sinks].map(([source, sink]) => ({ name: nameOf(source), sink }));
  const [only] = named;
  const blob =
    named.length === 1 && only !== undefined
      ? new Blob([...only.sink.take()], { type: soundMediaTypes[format] })
      : zipOf(named);
  return { type: 'made', blob, sounds, seconds: lengthSeconds };
}

self.addEventListener('message', ({ data }) => {
  answerTo(data).then(
    (answer) => self.postMessage(answer),
    (error: unknown) =>
      self.postMessage({ type: 'failed', why: error instanceof Error ? error.message : String(error) }),
  );
});
