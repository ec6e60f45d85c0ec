import { strToU8, zipSync, type Zippable } from 'fflate';
import { firstBars } from './xml-elements.ts';
import type { Mutation } from './mutation.ts';

const container = (path: string): Uint8Array =>
  strToU8(`<container><rootfiles><rootfile full-path="${path}"/></rootfiles></container>`);
const packed = (files: Zippable): Uint8Array => zipSync(files, { level: 1 });
const scoreIn = (bytes: Uint8Array, path = 'score.xml'): Zippable => ({
  'META-INF/container.xml': container(path),
  [path]: bytes,
});

let bomb: Uint8Array | null = null;
/** Twenty megabytes of nothing in twenty thousand bytes. */
function zipBomb(): Uint8Array {
  bomb ??= zipSync(scoreIn(new Uint8Array(20 * 1024 * 1024).fill(32)), { level: 9 });
  return bomb;
}

/** The same bytes with one number of the archive's own records changed: sizes, offsets, methods, counts. */
const lyingRecord = (bytes: Uint8Array, at: number, value: number): Uint8Array => {
  const archive = packed(scoreIn(bytes));
  if (at + 4 <= archive.byteLength) new DataView(archive.buffer).setUint32(archive.byteLength - 4 - at, value, true);
  return archive;
};

/** Damage around a MusicXML text: the archive that packs it. */
export const zipMutations: readonly Mutation[] = [
  { name: 'packed, cut short', apply: (bytes, draw) => packed(scoreIn(bytes)).slice(0, draw.below(2000)) },
  {
    name: 'packed, bytes flipped',
    apply: (bytes, draw) => {
      const archive = packed(scoreIn(bytes));
      for (let left = 1 + draw.below(6); left > 0; left -= 1) archive[draw.below(archive.length)] = draw.below(256);
      return archive;
    },
  },
  {
    name: 'packed, records that lie',
    apply: (bytes, draw) => lyingRecord(bytes, draw.below(160), draw.pick([0, 1, 0xffff, 0x7fffffff, 0xffffffff])),
  },
  { name: 'packed bomb', apply: () => zipBomb() },
  {
    name: 'bomb in a bomb',
    apply: () => packed({ 'META-INF/container.xml': container('in.mxl'), 'in.mxl': zipBomb() }),
  },
  {
    name: 'packed under strange names',
    apply: (bytes, draw) =>
      packed(
        scoreIn(bytes, draw.pick(['../../etc/passwd', '/', 'a\u0000b', 'x'.repeat(60_000), '__MACOSX/score.xml'])),
      ),
  },
  {
    name: 'packed, container gone',
    apply: (bytes, draw) => packed({ [draw.pick(['score.xml', 'a.musicxml', 'a.txt'])]: bytes }),
  },
  {
    name: 'packed, thousands of files',
    isHeavy: true,
    apply: (bytes) =>
      packed({
        ...Object.fromEntries(Array.from({ length: 2000 }, (_, index) => [`f${index}.xml`, new Uint8Array(1)])),
        ...scoreIn(bytes),
      }),
  },
  { name: 'packed whole', apply: (bytes) => packed(scoreIn(strToU8(firstBars(new TextDecoder().decode(bytes), 1)))) },
];
