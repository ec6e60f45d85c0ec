/** The kinds of sound file. */
export const soundFormats = ['wav', 'flac', 'mp3'] as const;
export type SoundFormat = (typeof soundFormats)[number];

/** **Source** WAV: common practice; FLAC: RFC 9639, 12.1; MP3: RFC 3003. */
export const soundMediaTypes: Readonly<Record<SoundFormat, string>> = {
  wav: 'audio/wav',
  flac: 'audio/flac',
  mp3: 'audio/mpeg',
};
