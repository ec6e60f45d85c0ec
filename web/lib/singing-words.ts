import {
  nameOf,
  pitchOfMidi,
  voiceRanges,
  type PitchRange,
  type SingingMove,
  type VoiceKind,
} from '../../music/index.ts';

/** A pitch with its octave, C4 being middle C: `F♯3`. */
export function pitchWords(midi: number): string {
  const pitch = pitchOfMidi(midi, 0);
  return `${nameOf(pitch)}${pitch.octave}`;
}

/** A verse by its number, or as its file calls it. */
export const verseWords = (verse: string): string => (/^\d+$/.test(verse) ? `verse ${verse}` : verse);

const numbers = ['no', 'one', 'two', 'three', 'four', 'five', 'six'] as const;
const wayOf = (amount: number): string => (amount < 0 ? 'lower' : 'higher');

function octaveWords(octaves: number): string {
  const count = Math.abs(octaves);
  return `${count === 1 ? 'an octave' : `${numbers[count] ?? count} octaves`} ${wayOf(octaves)}`;
}

function semitoneWords(semitones: number): string {
  const count = Math.abs(semitones);
  return `${count === 1 ? 'a semitone' : `${numbers[count] ?? count} semitones`} ${wayOf(semitones)}`;
}

/** What is moved for singing, in one sentence; null where nothing is. */
export function moveWords({ octaves, semitones }: Pick<SingingMove, 'octaves' | 'semitones'>): string | null {
  if (octaves === 0 && semitones === 0) return null;
  const all = `Everything sounds ${semitoneWords(semitones)}`;
  if (octaves === 0) return `${all}, for singing only.`;
  if (semitones === 0) return `The hum sounds ${octaveWords(octaves)}, for singing only.`;
  return `${all}, and the hum ${octaveWords(octaves)} besides, for singing only.`;
}

/** Whether a moved line lies within a voice, in one sentence. */
export function fitWords({ beyondSemitones }: Pick<SingingMove, 'beyondSemitones'>): string {
  if (beyondSemitones === 0) return 'All its notes lie within your voice.';
  const far = beyondSemitones === 1 ? 'a semitone' : `${numbers[beyondSemitones] ?? beyondSemitones} semitones`;
  return `It reaches ${far} beyond your voice: leave out what does not come easily.`;
}

/** The kinds of voices as they are offered. */
export const voiceKinds: readonly { readonly kind: VoiceKind; readonly text: string }[] = [
  { kind: 'low', text: 'low' },
  { kind: 'middleLow', text: 'middle, rather low' },
  { kind: 'middleHigh', text: 'middle, rather high' },
  { kind: 'high', text: 'high' },
];

/** Whether a voice is just the usual one of its kind. */
export const isUsual = (kind: VoiceKind, voice: PitchRange | null): boolean =>
  voice?.lowMidi === voiceRanges[kind].lowMidi && voice.highMidi === voiceRanges[kind].highMidi;
