import type { Channel } from './channel.ts';
import { blockSamples } from './channel.ts';
import { HumVoice } from './hum-voice.ts';

const fadeSeconds = 0.4;
const softStrength = 0.45;

/** One soft, steady tone under everything, until it is ended; a new pitch fades in as the old one fades out. */
export class Drone {
  private readonly voices: readonly [HumVoice, HumVoice];
  private current: 0 | 1 = 0;
  private midi: number | null = null;

  constructor(sampleRate: number) {
    this.voices = [new HumVoice(sampleRate, 'steady'), new HumVoice(sampleRate, 'steady')];
  }

  /** The tone from now on; null lets it fade. */
  set(midi: number | null): void {
    if (midi === this.midi) return;
    if (this.midi !== null) this.voices[this.current].release(fadeSeconds);
    this.midi = midi;
    if (midi === null) return;
    this.current = this.current === 0 ? 1 : 0;
    const voice = { kind: 'pitched', instrument: 'hum', midi, stroke: 'pluck' } as const;
    this.voices[this.current].start(voice, { voice, strength: softStrength, fret: null, glide: [] }, 1);
  }

  /** Lets it sound in a channel for a block, however fast the music goes. */
  addTo(channel: Channel): void {
    for (let index = 0; index < this.voices.length; index += 1) {
      const voice = this.voices[index] as HumVoice;
      if (voice.isActive) channel.add(voice, 0, blockSamples, 1);
    }
  }
}
