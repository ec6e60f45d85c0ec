import {
  processorName,
  type CapturedSound,
  type EngineCommand,
  type EngineMessage,
  type EngineOptions,
  type TimedReport,
} from './messages.ts';
import workletUrl from './worklet.ts?worker&url';

/** What a device tells its player. */
export interface DeviceListener {
  told(report: TimedReport): void;
  captured(sound: CapturedSound): void;
  /** The browser has paused or resumed sound by itself: another programme took the device, the system slept. */
  runningChanged(isRunning: boolean): void;
  /** The device or the engine is lost for good; a new one must be made. */
  lost(reason: string): void;
}

/** One audio context with the engine in it. Made within a person's gesture, for browsers keep silent until one. */
export class SoundDevice {
  private readonly context: AudioContext;
  private readonly node: AudioWorkletNode;

  private constructor(context: AudioContext, node: AudioWorkletNode, listener: DeviceListener) {
    this.context = context;
    this.node = node;
    node.port.onmessage = (event: MessageEvent<EngineMessage>) => {
      if (event.data.type === 'report') listener.told(event.data);
      else listener.captured(event.data);
    };
    node.onprocessorerror = () => listener.lost('The sound engine stopped.');
    context.addEventListener('error', () => listener.lost('The sound device failed.'));
    context.addEventListener('statechange', () => {
      if (context.state === 'closed') listener.lost('The sound device was closed.');
      else listener.runningChanged(context.state === 'running');
      if (context.state === 'suspended') this.resumeWithGesture();
    });
    node.connect(context.destination);
  }

  /** Opens a device whose engine has obeyed `commands` before its first sample. **Errors** rejects where the browser has no sound. */
  static async open(commands: () => readonly EngineCommand[], listener: DeviceListener): Promise<SoundDevice> {
    const context = new AudioContext({ latencyHint: 'interactive' });
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

  /** Lets sound out; where the browser refuses, the person's next gesture does. */
  resume(): void {
    this.resumeWithGesture();
    void this.context.resume();
  }

  /** Tries again at the next gesture, and when the page comes back into view. */
  private resumeWithGesture(): void {
    const occasions = ['pointerdown', 'keydown', 'visibilitychange'] as const;
    const attempt = (): void => {
      for (const occasion of occasions) document.removeEventListener(occasion, attempt);
      if (this.context.state === 'suspended') void this.context.resume();
    };
    for (const occasion of occasions) document.addEventListener(occasion, attempt);
  }

  send(command: EngineCommand): void {
    this.node.port.postMessage(command);
  }

  async close(): Promise<void> {
    this.node.disconnect();
    if (this.context.state !== 'closed') await this.context.close();
  }
}
