import type { EngineCommand } from './messages.ts';
import { SoundDevice, type DeviceListener } from './sound-device.ts';

/** The one sound device of a player: opened when it is first wanted, forgotten when it is lost, opened anew when it is wanted again. */
export class DeviceKeeper {
  private readonly commands: () => readonly EngineCommand[];
  private readonly listener: DeviceListener;
  private device: SoundDevice | null = null;
  private opening: Promise<SoundDevice> | null = null;

  constructor(commands: () => readonly EngineCommand[], listener: DeviceListener) {
    this.commands = commands;
    this.listener = listener;
  }

  /** On the clock that reports are stamped with; null while there is no device. **Units** seconds. */
  get heardSeconds(): number | null {
    return this.device?.heardSeconds ?? null;
  }

  get breakCount(): number {
    return this.device?.breakCount ?? 0;
  }

  /** The device, running or about to. **Errors** rejects, saying why, where the browser has none. */
  async open(): Promise<SoundDevice> {
    this.opening ??= SoundDevice.open(this.commands, this.listener);
    const opening = this.opening;
    try {
      const device = await opening;
      if (this.opening === opening) this.device = device;
      if (!device.isRunning) device.resume();
      return device;
    } catch (problem) {
      if (this.opening === opening) this.opening = null;
      const reason = problem instanceof Error ? problem.message : 'no reason given';
      throw new Error(`This browser could not open its sound: ${reason}.`, { cause: problem });
    }
  }

  send(command: EngineCommand): void {
    this.device?.send(command);
  }

  /** Lets the device go, whatever state it is in. */
  async close(): Promise<void> {
    const { opening } = this;
    this.device = this.opening = null;
    const device = await opening?.catch(() => null); // one that never opened has been told to whoever opened it
    await device?.close();
  }
}
