import type { Channel } from './channel.ts';
import { hertzOfMidi } from './level.ts';
import { HumVoice } from './hum-voice.ts';
import type { Struck } from './instruments.data.ts';
import type { VoiceNote } from './pluck.ts';
import { StringVoice, type PluckSpace } from './string-voice.ts';
import { StruckVoice } from './struck-voice.ts';
import type { Voice } from './voice.ts';

const stringCount = 64;
const struckCount = 32;
const humCount = 16;
const noSample = Infinity;
const justNowSamples = 960;
const justNowSeconds = 0.02;

/** A voice and what the mixer must know about its present use. Times within a block are samples, Infinity for none. */
export interface VoiceSlot {
  readonly voice: Voice;
  channel: Channel | null;
  string: number | null;
  startSample: number;
  /** The engine's sample at which it was started. */
  startedFrame: number;
  /** When it is damped: at this played time of the transport, or after so many samples, whichever comes first. */
  releaseAtElapsed: number;
  releaseInSamples: number;
  releaseTailSeconds: number;
  isReleased: boolean;
  /** The engine's sample at which it was. */
  releasedFrame: number;
  /** Counts starts, so that the oldest can be taken. */
  startedAs: number;
}

/** A voice whose damping has begun this short a time ago is as good as ringing: the hand is never quite even. */
const wasRinging = (slot: VoiceSlot, frame: number): boolean =>
  slot.voice.isActive &&
  slot.startedFrame < frame &&
  (!slot.isReleased || slot.releasedFrame >= frame - justNowSamples);

function isNearer(slot: VoiceSlot, than: VoiceSlot, channel: Channel): boolean {
  const isOwn = slot.channel === channel;
  return isOwn === (than.channel === channel) ? slot.startedAs > than.startedAs : isOwn;
}

type SlotOf<Kind extends Voice> = VoiceSlot & { readonly voice: Kind };

function slotOf<Kind extends Voice>(voice: Kind): SlotOf<Kind> {
  return {
    voice,
    channel: null,
    string: null,
    startSample: 0,
    startedFrame: -1,
    releaseAtElapsed: Infinity,
    releaseInSamples: noSample,
    releaseTailSeconds: 0.1,
    isReleased: false,
    releasedFrame: -1,
    startedAs: 0,
  };
}

/** Everything that can sound at once, made beforehand: nothing is allocated while playing. */
export class VoicePool {
  readonly slots: readonly VoiceSlot[];
  private readonly strings: readonly SlotOf<StringVoice>[];
  private readonly struck: readonly SlotOf<StruckVoice>[];
  private readonly hums: readonly SlotOf<HumVoice>[];
  private startCount = 0;

  constructor(sampleRate: number, periodSamples: number) {
    const space: PluckSpace = { shape: new Float64Array(periodSamples), scratch: new Float64Array(periodSamples) };
    this.strings = Array.from({ length: stringCount }, () => slotOf(new StringVoice(sampleRate, space)));
    this.struck = Array.from({ length: struckCount }, () => slotOf(new StruckVoice(sampleRate)));
    this.hums = Array.from({ length: humCount }, () => slotOf(new HumVoice(sampleRate)));
    this.slots = [...this.strings, ...this.struck, ...this.hums];
  }

  /** Sets a voice sounding and gives its slot, freshly cleared. It may take over what sounds in another, `before`. */
  start(note: VoiceNote, seed: number, gain: number, before: VoiceSlot | null = null): VoiceSlot {
    const { voice } = note;
    if (voice.kind === 'hit') return this.strike(voice.hit, note.strength, seed, gain);
    if (voice.instrument === 'hum') {
      const slot = this.take(this.hums);
      slot.voice.start(voice, note, gain);
      return slot;
    }
    const slot = this.take(this.strings);
    const string = before?.voice instanceof StringVoice && before !== slot ? before.voice : null;
    slot.voice.start(voice, note, seed, gain, string);
    return slot;
  }

  /** The string voice that rings on a string at a frame, or ended there just now: the last on this channel, else the last of all. */
  ringingOn(string: number, channel: Channel, frame: number): VoiceSlot | null {
    let found: VoiceSlot | null = null;
    for (let index = 0; index < this.strings.length; index += 1) {
      const slot = this.strings[index] as VoiceSlot;
      if (slot.string !== string || !wasRinging(slot, frame)) continue;
      if (found === null || isNearer(slot, found, channel)) found = slot;
    }
    return found;
  }

  /** Where no string is known: the voice of this channel that is to end about now, the nearest in pitch. **Units** played seconds. */
  endingAt(elapsedSeconds: number, midi: number, channel: Channel, frame: number): VoiceSlot | null {
    const hertz = hertzOfMidi(midi);
    let found: VoiceSlot | null = null;
    let least = Infinity;
    for (let index = 0; index < this.strings.length; index += 1) {
      const slot = this.strings[index] as SlotOf<StringVoice>;
      if (slot.string !== null || slot.channel !== channel || !wasRinging(slot, frame)) continue;
      const distance = Math.abs(slot.voice.soundingHertz / hertz - 1);
      if (Math.abs(slot.releaseAtElapsed - elapsedSeconds) > justNowSeconds || distance >= least) continue;
      found = slot;
      least = distance;
    }
    return found;
  }

  /** Strikes something that has no pitch of its own. */
  strike(struck: Struck, strength: number, seed: number, gain: number): VoiceSlot {
    const slot = this.take(this.struck);
    slot.voice.start(struck, strength, seed, gain);
    return slot;
  }

  /** A slot at rest, else the oldest that is dying, else the oldest. */
  private take<Slot extends VoiceSlot>(slots: readonly Slot[]): Slot {
    let chosen = slots[0] as Slot;
    let cost = Infinity;
    for (let index = 0; index < slots.length; index += 1) {
      const slot = slots[index] as Slot;
      const slotCost = !slot.voice.isActive ? -1 : slot.startedAs + (slot.isReleased ? 0 : 1e9);
      if (slotCost < cost) {
        chosen = slot;
        cost = slotCost;
      }
      if (cost < 0) break;
    }
    chosen.channel = null;
    chosen.string = null;
    chosen.startSample = 0;
    chosen.startedFrame = -1;
    chosen.releaseAtElapsed = Infinity;
    chosen.releaseInSamples = noSample;
    chosen.isReleased = false;
    this.startCount += 1;
    chosen.startedAs = this.startCount;
    return chosen;
  }

  /** Lets everything die away. */
  releaseAll(tailSeconds: number): void {
    for (const slot of this.slots) {
      if (!slot.voice.isActive || slot.isReleased) continue;
      slot.isReleased = true;
      slot.voice.release(tailSeconds);
    }
  }
}
