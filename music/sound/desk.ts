import type { LineId } from '../basis/ids.ts';
import type { Tuning } from '../score/score.ts';
import { Bus } from './bus.ts';
import { Channel, plainMix, type ChannelMix } from './channel.ts';

/** The mix of the lines, by line; a line that is not named is plain. `loose` is for notes on no line. */
export interface EngineMix {
  readonly lines: readonly { readonly line: LineId; readonly mix: ChannelMix }[];
  readonly loose: ChannelMix;
}

/** Every channel of the engine and where it comes out: one for each line, for notes on no line, for auditions, for the click. */
export class Desk {
  readonly loose: Channel;
  readonly auditioned: Channel;
  readonly clicks: Channel;
  private readonly sampleRate: number;
  private readonly isSeparate: boolean;
  private readonly buses: Bus[] = [];
  private readonly channelBuses: Bus[] = [];
  private readonly channels: Channel[] = [];
  private readonly byLine = new Map<LineId, Channel>();
  private mix: EngineMix = { lines: [], loose: plainMix };

  /** `separate` gives every channel a bus of its own. */
  constructor(sampleRate: number, channels: 'together' | 'separate') {
    this.sampleRate = sampleRate;
    this.isSeparate = channels === 'separate';
    this.loose = this.newChannel();
    this.auditioned = this.newChannel();
    this.clicks = this.newChannel();
  }

  private newChannel(): Channel {
    const channel = new Channel(this.sampleRate);
    const shared = this.isSeparate ? undefined : this.buses[0];
    const bus = shared ?? new Bus(this.sampleRate);
    if (shared === undefined) this.buses.push(bus);
    this.channels.push(channel);
    this.channelBuses.push(bus);
    return channel;
  }

  /** Gives lines that have none a channel, set as the mix has them. */
  addLines(lines: readonly LineId[]): void {
    for (const line of lines) {
      if (this.byLine.has(line)) continue;
      const channel = this.newChannel();
      channel.set(this.mixOf(line));
      this.byLine.set(line, channel);
    }
  }

  private mixOf(line: LineId): ChannelMix {
    return this.mix.lines.find((each) => each.line === line)?.mix ?? plainMix;
  }

  /** The channel of a line; that of the loose notes where it has none. */
  channelOf(line: LineId | null): Channel {
    return line === null ? this.loose : (this.byLine.get(line) ?? this.loose);
  }

  /** The bus of a source. */
  busOf(source: LineId | 'loose' | 'click'): Bus | undefined {
    const own = source === 'loose' ? this.loose : source === 'click' ? this.clicks : this.byLine.get(source);
    return own === undefined ? undefined : this.channelBuses[this.channels.indexOf(own)];
  }

  /** Sets levels, places, tones and who is heard. */
  setMix(mix: EngineMix): void {
    this.mix = mix;
    this.setChannel(this.loose, mix.loose);
    for (const [line, channel] of this.byLine) this.setChannel(channel, this.mixOf(line));
  }

  /** Sets a channel; what sounds and falls silent is not to go on in the open strings. */
  private setChannel(channel: Channel, mix: ChannelMix): void {
    const wasHeard = channel.isHeard();
    channel.set(mix);
    if (wasHeard && !channel.isHeard()) this.channelBuses[this.channels.indexOf(channel)]?.hush();
  }

  /** Tunes the open strings that sing along. */
  tune(tuning: Tuning | null): void {
    for (const bus of this.buses) bus.tune(tuning);
  }

  /** Lays the hand on the open strings, or takes it off. */
  damp(isDamped: boolean): void {
    for (const bus of this.buses) bus.damp(isDamped);
  }

  /** Clears all channels for a new block. */
  begin(): void {
    for (let index = 0; index < this.channels.length; index += 1) (this.channels[index] as Channel).begin();
    for (let index = 0; index < this.buses.length; index += 1) (this.buses[index] as Bus).begin();
  }

  /** Brings the finished block of all channels to both sides. */
  finish(left: Float32Array, right: Float32Array): void {
    for (let index = 0; index < this.channels.length; index += 1) {
      const channel = this.channels[index] as Channel;
      const bus = this.channelBuses[index] as Bus;
      channel.finish(bus.left, bus.right, bus.send, bus.ring);
      if (!channel.isAtRest) bus.keepAwake();
    }
    left.fill(0);
    right.fill(0);
    for (let index = 0; index < this.buses.length; index += 1) {
      const bus = this.buses[index] as Bus;
      bus.finish();
      bus.addTo(left, right);
    }
  }
}
