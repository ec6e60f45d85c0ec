import { ALL_FORMATS, BufferSource, EncodedPacketSink, Input } from 'mediabunny';
import { describe, expect, it } from 'vitest';
import { lineId, renderedSeconds, type Line, type LineId } from '../music/index.ts';
import { outsideLoudness, outsideTruePeakDb } from '../tests/support/outside-loudness.ts';
import { line as lineOf, meter, note, rest, voices } from '../tests/support/score-builders.ts';
import { splitOf } from '../tests/support/split-builders.ts';
import { soundFileNames } from './file-names.ts';
import { recordSound, type FileSource, type RecordOrder } from './record-sound.ts';
import type { SoundFormat } from './sound-format.ts';
import { stemsOrderOf, type SoundWish } from './sound-wish.ts';
import { openTrack } from './track.ts';

const [melody, bass] = [lineId('melody'), lineId('bass')];
const score = voices(
  meter(4, 4),
  [note('E4', 1), note('G4', 1), note('A4', 1), note('B4', 1)],
  [note('E2', 2), note('B2', 2)],
  [rest(1), note('G3', 1), rest(1), note('D4', 1)],
);
const split = splitOf({ melody: ['n1', 'n4', 'n5', 'n7'], bass: ['n2', 'n6'] });
const wish: SoundWish = {
  excerpt: null,
  isUnfolded: true,
  mix: { lines: [], forward: null },
  playing: {},
  tempoPercent: 100,
  countInBars: 0,
  click: { isOn: false, subdivision: 1 },
};

interface Kept {
  readonly told: Awaited<ReturnType<typeof recordSound>>;
  readonly files: ReadonlyMap<FileSource, Uint8Array<ArrayBuffer>>;
  readonly shares: readonly number[];
}

/** Records into memory. */
async function recorded(
  asked: SoundWish,
  change: Partial<RecordOrder> & { readonly format: SoundFormat },
): Promise<Kept> {
  const order = {
    stems: stemsOrderOf(score, split, asked)!,
    hasStems: true,
    targetLufs: null,
    mostKeptBytes: 0,
    ...change,
  };
  const files = new Map<FileSource, Uint8Array<ArrayBuffer>>();
  const shares: number[] = [];
  const openSink = (source: FileSource) => ({
    write: (bytes: Uint8Array, at: number) => {
      const before = files.get(source) ?? new Uint8Array(0);
      const after = new Uint8Array(Math.max(before.length, at + bytes.length));
      after.set(before);
      after.set(bytes, at);
      files.set(source, after);
    },
  });
  const told = await recordSound(
    order,
    (source, encoding) => openTrack(encoding, openSink(source)),
    (share) => shares.push(share),
  );
  return { told, files, shares };
}

const headBytes = 44;

/** One side of a 24-bit stereo WAV file, read byte by byte. */
function sideOf(bytes: Uint8Array, side: 0 | 1): Float32Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  return Float32Array.from({ length: (bytes.length - headBytes) / 6 }, (_, frame) => {
    const at = headBytes + frame * 6 + side * 3;
    return (view.getInt8(at + 2) * 65_536 + view.getUint16(at, true)) / 8_388_608;
  });
}

describe('recorded sound', () => {
  it('is a WAV file for the mix and each stem, equally long, which sum to the mix within −90 dBFS', async () => {
    const { told, files, shares } = await recorded(wish, { format: 'wav' });
    expect(told.files.map(({ source }) => source)).toEqual(['mix', melody, bass, 'loose']);
    expect(new Set([...files.values()].map(({ length }) => length)).size).toBe(1);
    for (const side of [0, 1] as const) {
      const stems = [melody, bass, 'loose' as const].map((source) => sideOf(files.get(source)!, side));
      const apart = sideOf(files.get('mix')!, side).map(
        (value, index) => value - stems.reduce((sum, stem) => sum + stem[index]!, 0),
      );
      expect(apart.reduce((peak, value) => Math.max(peak, Math.abs(value)), 0)).toBeLessThan(10 ** (-90 / 20));
    }
    expect(shares.at(-1)).toBeCloseTo(1, 9);
  });

  it('states the loudness and true peak that ebur128-wasm measures in the file, matched to what is asked', async () => {
    const { told, files } = await recorded(wish, { format: 'wav', targetLufs: -20 });
    for (const { source, levels } of told.files) {
      const [left, right] = [sideOf(files.get(source)!, 0), sideOf(files.get(source)!, 1)];
      expect(Math.abs(levels.loudnessLufs - outsideLoudness(left, right, 48_000))).toBeLessThan(0.02);
      const peakDb = Math.max(outsideTruePeakDb(left, 48_000), outsideTruePeakDb(right, 48_000));
      expect(Math.abs(levels.truePeakDb - peakDb)).toBeLessThan(0.4);
    }
    expect(Math.abs(told.files[0]!.levels.loudnessLufs - -20)).toBeLessThan(0.1);
  });

  it('is FLAC of 24 bits with every frame counted (RFC 9639, 8.2), or MP3 of the same length', async () => {
    const { files, told } = await recorded(wish, { format: 'flac', hasStems: false });
    const flac = Buffer.from(files.get('mix')!);
    expect(flac.toString('latin1', 0, 4)).toBe('fLaC');
    const packed = flac.readBigUInt64BE(18); // sample rate (20 bits), channels − 1 (3), bits − 1 (5), frames (36)
    expect([packed >> 44n, (packed >> 41n) & 7n, (packed >> 36n) & 31n]).toEqual([48_000n, 1n, 23n]);
    expect(Number(packed & 0xfffffffffn)).toBe(told.lengthSeconds * 48_000);
    const mp3 = (await recorded(wish, { format: 'mp3', hasStems: false })).files.get('mix')!;
    const input = new Input({ source: new BufferSource(mp3.buffer), formats: ALL_FORMATS });
    const track = (await input.getPrimaryAudioTrack())!;
    expect(await track.getCodec()).toBe('mp3');
    let seconds = 0;
    for await (const packet of new EncodedPacketSink(track).packets()) seconds += packet.duration;
    expect(Math.abs(seconds - told.lengthSeconds)).toBeLessThan(0.1);
  });

  it('is as long as its tempo and count-in make it, and plays only the excerpt', () => {
    const seconds = (change: Partial<SoundWish>): number =>
      renderedSeconds(stemsOrderOf(score, split, { ...wish, ...change })!);
    const bar = (4 * 60) / 100; // quarters, 100 a minute
    const [first] = score.bars;
    const beat = (at: number) => ({ bar: first!.id, offset: { numerator: at, denominator: 1 } });
    expect(seconds({})).toBeCloseTo(bar + 2, 3);
    expect(seconds({ tempoPercent: 50 })).toBeCloseTo(2 * bar + 2, 3);
    expect(seconds({ countInBars: 1 })).toBeCloseTo(2 * bar + 2, 3);
    expect(seconds({ excerpt: { from: beat(1), to: beat(3) } })).toBeCloseTo(bar / 2 + 2, 3);
  });

  it('follows the repeats that lie within its excerpt, unless all is to be played once', () => {
    const four = { meter: meter(4, 4) };
    const repeated = lineOf(
      [four, { ...four, startsRepeat: true, repeatTimes: 2 }, four],
      ...[note('C4', 4), note('D4', 4), note('E4', 4)],
    );
    const [first, second] = repeated.bars;
    const end = { numerator: 4, denominator: 1 };
    const excerpt = {
      from: { bar: first!.id, offset: { numerator: 0, denominator: 1 } },
      to: { bar: second!.id, offset: end },
    };
    const order = (isUnfolded: boolean) => stemsOrderOf(repeated, split, { ...wish, excerpt, isUnfolded })!;
    expect(order(true).performance.bars.map(({ bar }) => bar)).toEqual([first!.id, second!.id, second!.id]);
    expect(order(false).performance.bars.map(({ bar }) => bar)).toEqual([first!.id, second!.id]);
  });

  it('names each file once, by letter and name', () => {
    const line = (id: LineId, name: string): Line => ({
      id,
      letter: 'M',
      name,
      role: 'melody',
      dye: 'madder',
      orderKey: 'a0',
      isRetired: false,
    });
    const nameOf = soundFileNames([line(melody, 'Höhe / top'), line(bass, 'Höhe – top')], 'flac');
    expect([nameOf('mix'), nameOf(melody), nameOf(bass), nameOf('click')]).toEqual([
      'mix.flac',
      'm-höhe-top.flac',
      'm-höhe-top-2.flac',
      'click.flac',
    ]);
  });
});
