import { blockSamples, Rise, SoundEngine } from '../../music/index.ts';
import { processorName, type EngineCommand, type EngineMessage, type EngineOptions } from './messages.ts';

declare const sampleRate: number;
declare const currentTime: number;
declare const currentFrame: number;
declare function registerProcessor(
  name: string,
  processor: new (options: { processorOptions: EngineOptions }) => AudioWorkletProcessor,
): void;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}

const reportEveryBlocks = 8;
const captureBlocks = 32;

/** The engine's shell inside the audio thread: commands in, sound and reports out. */
class SoundProcessor extends AudioWorkletProcessor {
  private readonly engine = new SoundEngine(sampleRate);
  private readonly rise = new Rise(sampleRate);
  private readonly left = new Float32Array(blockSamples);
  private readonly right = new Float32Array(blockSamples);
  private blocksSinceReport = 0;
  private lastStage = 0;
  private wasPlaying = false;
  private playNumber = 0;
  private loadNumber = 0;
  private gaps = 0;
  private nextFrame: number | null = null;
  private isReportDue = false;
  private capturedLeft: Float32Array<ArrayBuffer> | null = null;
  private capturedRight: Float32Array<ArrayBuffer> | null = null;
  private capturedBlocks = 0;

  constructor(options: { processorOptions: EngineOptions }) {
    super();
    for (const command of options.processorOptions.commands) this.obey(command);
    this.port.onmessage = (event: MessageEvent<EngineCommand>) => this.obey(event.data);
  }

  private obey(command: EngineCommand): void {
    const { engine } = this;
    switch (command.type) {
      case 'load':
        this.loadNumber = command.loadNumber;
        engine.load(command.performance, command.loop);
        break;
      case 'mix':
        engine.setMix(command.mix);
        break;
      case 'volume':
        engine.setVolume(command.levelDb);
        break;
      case 'rate':
        engine.setRate(command.rate);
        break;
      case 'click':
        engine.setClick(command.setting);
        break;
      case 'loop':
        engine.setLoop(command.loop);
        break;
      case 'programme':
        engine.setProgramme(command.programme);
        break;
      case 'play':
        this.playNumber = command.playNumber;
        this.isReportDue = true;
        engine.play(command.fromSeconds, command.countInBars, command.pass);
        break;
      case 'rise':
        this.rise.begin();
        break;
      case 'stop':
        engine.stop();
        break;
      case 'audition':
        for (const sound of command.sounds) engine.audition(sound);
        break;
      case 'drone':
        engine.setDrone(command.midi);
        break;
      case 'capture':
        this.capture(command.isOn);
        break;
    }
  }

  process(_inputs: readonly unknown[], outputs: readonly (readonly Float32Array[])[]): boolean {
    const [left, right] = outputs[0] ?? [];
    if (left === undefined) return true;
    this.countGap(left.length);
    for (let at = 0; at < left.length; at += blockSamples) {
      this.engine.process(this.left, this.right);
      this.rise.apply(this.left, this.right);
      left.set(this.left, at);
      right?.set(this.right, at);
      this.keepCaptured();
    }
    this.reportIfDue();
    return true;
  }

  /** Samples that the device went on by without asking for them have been silent. */
  private countGap(samples: number): void {
    if (this.nextFrame !== null && currentFrame > this.nextFrame) this.gaps += 1;
    this.nextFrame = currentFrame + samples;
  }

  private reportIfDue(): void {
    const { report } = this.engine;
    this.blocksSinceReport += 1;
    const hasTurned = this.isReportDue || report.stageNumber !== this.lastStage || report.isPlaying !== this.wasPlaying;
    if (!hasTurned && (!report.isPlaying || this.blocksSinceReport < reportEveryBlocks)) return;
    this.blocksSinceReport = 0;
    this.isReportDue = false;
    this.lastStage = report.stageNumber;
    this.wasPlaying = report.isPlaying;
    const contextSeconds = currentTime + blockSamples / sampleRate;
    this.tell({
      type: 'report',
      playNumber: this.playNumber,
      loadNumber: this.loadNumber,
      gaps: this.gaps,
      report,
      contextSeconds,
      stageContextSeconds: contextSeconds - (report.frame - report.stageStartFrame) / sampleRate,
    });
  }

  private capture(isOn: boolean): void {
    this.capturedLeft = isOn ? new Float32Array(captureBlocks * blockSamples) : null;
    this.capturedRight = isOn ? new Float32Array(captureBlocks * blockSamples) : null;
    this.capturedBlocks = 0;
  }

  private keepCaptured(): void {
    if (this.capturedLeft === null || this.capturedRight === null) return;
    this.capturedLeft.set(this.left, this.capturedBlocks * blockSamples);
    this.capturedRight.set(this.right, this.capturedBlocks * blockSamples);
    this.capturedBlocks += 1;
    if (this.capturedBlocks < captureBlocks) return;
    const firstFrame = this.engine.report.frame - captureBlocks * blockSamples;
    this.tell({
      type: 'captured',
      firstFrame,
      sampleRate,
      left: this.capturedLeft.slice(),
      right: this.capturedRight.slice(),
    });
    this.capturedBlocks = 0;
  }

  private tell(message: EngineMessage): void {
    this.port.postMessage(message);
  }
}

registerProcessor(processorName, SoundProcessor);
