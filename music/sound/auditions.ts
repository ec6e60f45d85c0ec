import type { SoundEvent } from '../perform/performance.ts';

/** One sound to be heard at once or a little later, beside the music. **Units** strength 0 to 1. */
export interface Audition extends Pick<SoundEvent, 'voice' | 'strength' | 'glide'> {
  readonly seconds: number;
  readonly afterSeconds: number;
}

interface Waiting {
  readonly audition: Audition;
  samples: number;
}

/** Sounds that wait for their sample; they keep their order whatever is played. */
export class Auditions {
  private readonly sampleRate: number;
  private waiting: Waiting[] = [];

  constructor(sampleRate: number) {
    this.sampleRate = sampleRate;
  }

  add(audition: Audition): void {
    this.waiting.push({ audition, samples: Math.round(Math.max(0, audition.afterSeconds) * this.sampleRate) });
  }

  clear(): void {
    this.waiting = [];
  }

  /** Moves on by a block, handing over whatever is due in it. */
  advance(samples: number, start: (audition: Audition, sample: number) => void): void {
    if (this.waiting.length === 0) return;
    for (const each of this.waiting) {
      if (each.samples < samples) start(each.audition, each.samples);
      each.samples -= samples;
    }
    this.waiting = this.waiting.filter((each) => each.samples >= 0);
  }
}
