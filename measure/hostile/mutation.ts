import type { Draw } from './draw.ts';

/** One way to break a file. */
export interface Mutation {
  readonly name: string;
  /** It makes a large file; drawn an eighth as often as others. */
  readonly isHeavy?: true;
  readonly apply: (bytes: Uint8Array, draw: Draw) => Uint8Array;
}

const encoder = new TextEncoder();
const decoder = new TextDecoder();

export const bytesOf = (text: string): Uint8Array => encoder.encode(text);

/** A way to break the text of a file. */
export const textMutation = (name: string, apply: (text: string, draw: Draw) => string): Mutation => ({
  name,
  apply: (bytes, draw) => bytesOf(apply(decoder.decode(bytes), draw)),
});

/** The bytes of several stretches one after the other. */
export function joined(...parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { byteLength }) => sum + byteLength, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.byteLength;
  }
  return whole;
}

/** Numbers that programs trip over, as text. */
export const nastyNumbers: readonly string[] = [
  '0',
  '-1',
  '-96',
  '1e300',
  '-1e300',
  'NaN',
  'Infinity',
  '',
  '1/3',
  '0.1',
  '1e-300',
  '2147483648',
  '4294967296',
  '9007199254740993',
  '99999999999999999999999999',
  '1000000',
  '-0',
  '0x10',
  '١٢',
  'many',
  '1 2',
  '65536',
  '255',
  '3.5',
];
