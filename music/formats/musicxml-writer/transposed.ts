import { midiOf, nameOf, pitchOfMidi, type Pitch } from '../../basis/pitch.ts';
import type { ChordSymbol, Tone } from '../../score/marks.ts';
import type { Key } from '../../score/score.ts';
import type { Transposition } from '../../score/written.ts';

const steps: readonly Pitch['step'][] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

/** A pitch as it is written for an instrument that transposes, by the interval's own steps; respelled where that would take three accidentals. */
export function writtenPitch(pitch: Pitch, transposition: Transposition | null): Pitch {
  if (transposition === null) return pitch;
  const { chromatic, diatonic, octaves } = transposition;
  const place = steps.indexOf(pitch.step) + diatonic;
  const step = steps[((place % 7) + 7) % 7] ?? pitch.step;
  const natural: Pitch = { step, alter: 0, octave: pitch.octave + octaves + Math.floor(place / 7) };
  const midi = midiOf(pitch) + chromatic + 12 * octaves;
  const alter = midi - midiOf(natural);
  return Math.abs(alter) <= 2 || !Number.isInteger(midi) ? { ...natural, alter } : pitchOfMidi(midi, alter);
}

/** A key as it is written for an instrument that transposes. **Source** common practice, no source: a fifth up is one sharp more. */
export const writtenKey = (key: Key, transposition: Transposition | null): Key =>
  transposition === null
    ? key
    : { ...key, fifths: key.fifths + 7 * transposition.chromatic - 12 * transposition.diatonic };

const writtenTone = (tone: Tone, transposition: Transposition): Tone => {
  const { step, alter } = writtenPitch({ ...tone, octave: 4 }, transposition);
  return { step, alter };
};

/** The letter of a tone with its accidental. */
export const toneText = (tone: Tone): string => nameOf({ ...tone, octave: 4 });

/** A chord symbol as it is written for an instrument that transposes. */
export function writtenSymbol<Symbol extends Omit<ChordSymbol, 'onsetTicks'>>(
  symbol: Symbol,
  transposition: Transposition | null,
): Symbol {
  if (transposition === null || symbol.root === null) return symbol;
  const root = writtenTone(symbol.root, transposition);
  const bass = symbol.bass === null ? null : writtenTone(symbol.bass, transposition);
  const [oldRoot, oldBass] = [toneText(symbol.root), symbol.bass === null ? '' : `/${toneText(symbol.bass)}`];
  if (!symbol.text.startsWith(oldRoot) || !symbol.text.endsWith(oldBass)) return { ...symbol, root, bass };
  const middle = symbol.text.slice(oldRoot.length, symbol.text.length - oldBass.length);
  return { ...symbol, root, bass, text: `${toneText(root)}${middle}${bass === null ? '' : `/${toneText(bass)}`}` };
}
