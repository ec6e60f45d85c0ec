import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { runInNewContext } from 'node:vm';

/** The part of `tonal` that the tests use. Its modules name an entry that is not in the package, so its bundle for browsers is run. */
interface OutsideTheory {
  readonly Interval: { get(name: string): { readonly num: number; readonly alt: number } };
  readonly Key: {
    majorKey(tonic: string): {
      readonly alteration: number;
      readonly minorRelative: string;
      readonly scale: readonly string[];
    };
    minorKey(
      tonic: string,
    ): Readonly<Record<'natural' | 'harmonic' | 'melodic', { readonly scale: readonly string[] }>>;
  };
  readonly Note: {
    get(name: string): { readonly letter: string; readonly alt: number; readonly height: number };
    midi(name: string): number | null;
    freq(name: string): number | null;
    fromMidi(midi: number): string;
    fromMidiSharps(midi: number): string;
    chroma(name: string): number;
    transpose(name: string, interval: string): string;
    transposeFifths(name: string, fifths: number): string;
  };
}

const bundle = readFileSync(createRequire(import.meta.url).resolve('tonal/browser/tonal.min.js'), 'utf8');

/** Keys, intervals and note names by `tonal` of the npm registry. */
export const outsideTheory = runInNewContext(`${bundle};Tonal`) as OutsideTheory;
