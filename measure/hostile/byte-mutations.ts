import { joined, type Mutation } from './mutation.ts';

const longest = 4000;

/** Damage that knows nothing of the format, as broken disks and lines do it. */
export const byteMutations: readonly Mutation[] = [
  { name: 'cut short', apply: (bytes, draw) => bytes.slice(0, draw.below(bytes.byteLength)) },
  { name: 'beginning lost', apply: (bytes, draw) => bytes.slice(draw.below(bytes.byteLength)) },
  {
    name: 'bytes flipped',
    apply: (bytes, draw) => {
      const damaged = bytes.slice();
      for (let left = 1 + draw.below(12); left > 0; left -= 1) damaged[draw.below(damaged.length)] = draw.below(256);
      return damaged;
    },
  },
  {
    name: 'bits flipped',
    apply: (bytes, draw) => {
      const damaged = bytes.slice();
      for (let left = 1 + draw.below(12); left > 0; left -= 1) {
        const at = draw.below(damaged.length);
        damaged[at] = (damaged[at] ?? 0) ^ (1 << draw.below(8));
      }
      return damaged;
    },
  },
  {
    name: 'stretch zeroed',
    apply: (bytes, draw) => {
      const { from, to } = draw.stretch(bytes.byteLength, longest);
      return bytes.slice().fill(0, from, to);
    },
  },
  {
    name: 'stretch lost',
    apply: (bytes, draw) => {
      const { from, to } = draw.stretch(bytes.byteLength, longest);
      return joined(bytes.subarray(0, from), bytes.subarray(to));
    },
  },
  {
    name: 'stretch doubled',
    apply: (bytes, draw) => {
      const { from, to } = draw.stretch(bytes.byteLength, longest);
      return joined(bytes.subarray(0, to), bytes.subarray(from));
    },
  },
  {
    name: 'noise put in',
    apply: (bytes, draw) => {
      const at = draw.below(bytes.byteLength);
      const noise = Uint8Array.from({ length: 1 + draw.below(40) }, () => draw.below(256));
      return joined(bytes.subarray(0, at), noise, bytes.subarray(at));
    },
  },
  { name: 'file twice', apply: (bytes) => joined(bytes, bytes) },
];
