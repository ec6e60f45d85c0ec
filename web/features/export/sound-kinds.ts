import type { SoundFormat } from '../../../recording/index.ts';

/** The kinds of sound file in words. */
export const soundKinds: readonly { readonly kind: SoundFormat; readonly text: string; readonly gets: string }[] = [
  {
    kind: 'wav',
    text: 'sound, for recording programs (WAV)',
    gets: 'Sound of 24 bits and 48 kHz, nothing lost; 17 MB a minute for each file.',
  },
  {
    kind: 'flac',
    text: 'sound, nothing lost and half the size (FLAC)',
    gets: 'The very samples of WAV, packed.',
  },
  {
    kind: 'mp3',
    text: 'sound, to send and to hear anywhere (MP3)',
    gets: 'Small files of 256 kbit a second that everything plays.',
  },
];
