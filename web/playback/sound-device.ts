import {
  processorName,
  type CapturedSound,
  type EngineCommand,
  type EngineMessage,
  type EngineOptions,
  type TimedReport,
} from './messages.ts';
import { atNextOccasion, devicesOf } from './next-occasion.ts';
import workletUrl from './worklet.ts?worker&url';

/** What a device tells its player. */
export interface DeviceListener {
  told(report: TimedReport): void;
  captured(sound: CapturedSound): void;
  /** The browser has paused or resumed sound by itself: another programme took the device, the system slept. */
  runningChanged(isRunning: boolean): void;
  /** The device or the engine is lost for good; a new one must be made. Told once. */
  lost(reason: string): void;
}

/** What some browsers count about how sound reaches the device. **Source** Web Audio API, AudioPlaybackStats. */
interface WithPlaybackStats {
  readonly playbackStats?: { readonly underrunEvents: number };
}

const stalledMs = 1000;

/** One audio context with the engine in it. Made within a person's gesture, for browsers keep silent until one. */
export class SoundDevice {
  private readonly context: AudioContext & WithPlaybackStats;
  private readonly node: AudioWorkletNode;
  private readonly listener: DeviceListener;
  private readonly ended = new AbortController();
  private giveUpResuming: () => void = () => undefined;
  private gaps = 0;

  private constructor(context: AudioContext, node: AudioWorkletNode, listener: DeviceListener) {
    this.context = context;
    this.node = node;
    this.listener = listener;
    const { signal } = this.ended;
    node.port.onmessage = (event: MessageEvent<EngineMessage>) => this.take(event.data);
    node.onprocessorerror = () => this.lose('The sound engine stopped.');
    context.addEventListener('error', () => this.lose('The sound device failed.'), { signal });
    context.addEventListener('statechange', () => this.stateChanged(), { signal });
    context.addEventListener('sinkchange', () => this.deviceChanged(), { signal });
    devicesOf(navigator)?.addEventListener('devicechange', () => this.deviceChanged(), { signal });
    node.connect(context.destination);
  }

  /** Opens a device whose engine has obeyed `commands` before its first sample. **Errors** rejects where the browser has no sound. */
  static async open(commands: () => readonly EngineCommand[], listener: DeviceListener): Promise<SoundDevice> {
    const context = new AudioContext({ latencyHint: 'balanced' });
    try {
      await context.audioWorklet.addModule(workletUrl);
      const options: EngineOptions = { commands: commands() };
      const node = new AudioWorkletNode(context, processorName, {
        numberOfInputs: 0,
        numberOfOutputs: 1,
        outputChannelCount: [2],
        processorOptions: options,
      });
      return new SoundDevice(context, node, listener);
    } catch (problem) {
      await context.close();
      throw problem;
    }
  }

  get isRunning(): boolean {
    return this.context.state === 'running';
  }

  /** The moment that is being heard, on the clock that reports are stamped with. **Units** seconds. */
  get heardSeconds(): number {
    return this.context.currentTime - (this.context.outputLatency || 0); // not every browser knows its latency
  }

  /** How often the sound has broken off so far: as the browser counts it, else as the engine saw its clock leap. */
  get breakCount(): number {
    return this.context.playbackStats?.underrunEvents ?? this.gaps;
  }

  /** Lets sound out; where the browser refuses, the person's next gesture does. */
  resume(): void {
    this.giveUpResuming();
    this.giveUpResuming = atNextOccasion(() => {
      if (this.context.state !== 'running' && this.context.state !== 'closed') this.resume();
    });
    void this.context.resume().catch(() => undefined); // a context that is closed meanwhile has told so by its state
  }

  send(command: EngineCommand): void {
    this.node.port.postMessage(command);
  }

  async close(): Promise<void> {
    this.ended.abort();
    this.giveUpResuming();
    this.node.disconnect();
    if (this.context.state !== 'closed') await this.context.close();
  }

  private take(message: EngineMessage): void {
    if (message.type === 'captured') this.listener.captured(message);
    else {
      this.gaps = message.gaps;
      this.listener.told(message);
    }
  }

  private stateChanged(): void {
    const { state } = this.context;
    if (state === 'closed') {
      this.lose('The sound device was closed.');
      return;
    }
    this.listener.runningChanged(state === 'running');
    if (state === 'running') this.giveUpResuming();
    else this.resume();
  }

  /** Sound goes on through the new device by itself in most browsers; where its clock stands still, the context is lost. */
  private deviceChanged(): void {
    if (this.context.state !== 'running') {
      this.resume();
      return;
    }
    const since = { clockSeconds: this.context.currentTime, pageMs: performance.now() };
    const watch = (): void => {
      if (this.ended.signal.aborted || this.context.state !== 'running') return;
      if (this.context.currentTime > since.clockSeconds + 0.1) return;
      if (performance.now() - since.pageMs > stalledMs) this.lose('The sound device no longer answers.');
      else requestAnimationFrame(watch);
    };
    watch();
  }

  private lose(reason: string): void {
    if (this.ended.signal.aborted) return;
    this.ended.abort();
    this.listener.lost(reason);
  }
}
