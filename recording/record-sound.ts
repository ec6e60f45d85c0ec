import {
  limitedStems,
  matchedGainDb,
  UnlimitedStems,
  type SoundLevels,
  type StemsOrder,
  type StemsPiece,
  type StemSource,
} from '../music/index.ts';
import type { EncoderOrder } from './encoding.ts';
import type { SoundFormat } from './sound-format.ts';
import type { Track } from './track.ts';

/** What one file holds: everything together, or a stem of it. */
export type FileSource = 'mix' | StemSource;

/** What is recorded. */
export interface RecordOrder {
  readonly stems: StemsOrder;
  /** Whether each line, the loose notes and the click get a file of their own beside the mix. */
  readonly hasStems: boolean;
  readonly format: SoundFormat;
  /** Null leaves the loudness as it is played. **Units** LUFS, of the mix. */
  readonly targetLufs: number | null;
  /** Sound that takes no more than this is kept while its loudness is found, longer sound is played twice. **Units** bytes. */
  readonly mostKeptBytes: number;
}

/** A file that was made. */
export interface RecordedFile {
  readonly source: FileSource;
  readonly levels: SoundLevels;
}

/** What came of it. */
export interface Recorded {
  readonly files: readonly RecordedFile[];
  readonly lengthSeconds: number;
}

/** Gives the track of each file. */
export type OpenTrack = (source: FileSource, order: EncoderOrder) => Promise<Track>;

interface NamedTrack extends Track {
  readonly source: FileSource;
}

const matchingShare = 0.4;
/** Work goes on without pause for so many pieces; then whoever waits gets a turn. */
const piecesPerTurn = 16;
const nextTurn = (): Promise<void> => new Promise((resolve) => void setTimeout(resolve, 0));

async function gainDbOf(
  unlimited: UnlimitedStems,
  targetLufs: number | null,
  onShare: (share: number) => void,
): Promise<number> {
  if (targetLufs === null) return 0;
  const matching = matchedGainDb(unlimited, targetLufs);
  let step = matching.next();
  for (let count = 1; step.done !== true; count += 1) {
    onShare(matchingShare * step.value);
    if (count % piecesPerTurn === 0) await nextTurn();
    step = matching.next();
  }
  return step.value;
}

async function addPiece(tracks: readonly NamedTrack[], piece: StemsPiece): Promise<void> {
  await Promise.all(
    tracks.map(async ({ source, add }) => {
      const sound = source === 'mix' ? piece.mix : piece.stems.get(source);
      if (sound !== undefined) await add(sound);
    }),
  );
}

/**
 * Records the mix, and its stems where they are wanted, each on the track that `openTrack` gives for it; all files begin
 * together and are equally long. `onShare` is told how much is done, 0 to 1.
 */
export async function recordSound(
  order: RecordOrder,
  openTrack: OpenTrack,
  onShare: (share: number) => void,
): Promise<Recorded> {
  const { stems, hasStems, format, targetLufs } = order;
  const isMatched = targetLufs !== null;
  const unlimited = new UnlimitedStems(stems, {
    isDivided: hasStems,
    mostKeptBytes: isMatched ? order.mostKeptBytes : 0,
  });
  const { sources, lengthFrames } = unlimited;
  const { sampleRate } = stems;
  const tracks: NamedTrack[] = [];
  for (const source of ['mix' as const, ...(hasStems ? sources : [])])
    tracks.push({ source, ...(await openTrack(source, { format, sampleRate, lengthFrames })) });
  const gainDb = await gainDbOf(unlimited, targetLufs, onShare);
  const before = isMatched ? matchingShare : 0;
  let frames = 0;
  let count = 0;
  for (const piece of limitedStems(unlimited, gainDb)) {
    await addPiece(tracks, piece);
    frames += piece.mix.left.length;
    onShare(before + (1 - before) * (frames / lengthFrames));
    count += 1;
    if (count % piecesPerTurn === 0) await nextTurn();
  }
  const files = await Promise.all(
    tracks.map(async ({ source, finish }): Promise<RecordedFile> => ({ source, levels: await finish() })),
  );
  return { files, lengthSeconds: lengthFrames / sampleRate };
}
