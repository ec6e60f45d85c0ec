import type { EngineMix, Performance, SecondsRange, StereoSound } from '../../music/index.ts';
import { processorName, type EngineOptions } from './messages.ts';
import workletUrl from './worklet.ts?worker&url';

/** Renders a performance from its start, or a stretch of it over and over, by the same worklet that plays it, faster than it sounds. **Errors** rejects where the browser cannot. */
export async function renderOffline(
  performance: Performance,
  mix: EngineMix,
  seconds: number,
  sampleRate = 48_000,
  loop: SecondsRange | null = null,
): Promise<StereoSound> {
  const context = new OfflineAudioContext(2, Math.ceil(seconds * sampleRate), sampleRate);
  await context.audioWorklet.addModule(workletUrl);
  const options: EngineOptions = {
    commands: [
      { type: 'mix', mix },
      { type: 'load', loadNumber: 1, performance, loop },
      { type: 'play', playNumber: 1, fromSeconds: 0, pass: 0, countInBars: 0 },
    ],
  };
  const node = new AudioWorkletNode(context, processorName, {
    numberOfInputs: 0,
    numberOfOutputs: 1,
    outputChannelCount: [2],
    processorOptions: options,
  });
  node.connect(context.destination);
  const buffer = await context.startRendering();
  return { left: buffer.getChannelData(0), right: buffer.getChannelData(1) };
}
