import {
  secondsAtTicks,
  secondsOfRange,
  silentClick,
  type ClickSetting,
  type EventVoice,
  type EngineMix,
  type LinePowers,
  type LineId,
  type NoteId,
  type Performance,
  type Programme,
  type SecondsRange,
  type Stage,
  type TickRange,
  engineMixOf,
  plainSetting,
  type LineSetting,
} from '../../music/index.ts';
import type { CapturedSound, EngineCommand, TimedReport } from './messages.ts';
import { LoudnessMeter } from './loudness-meter.ts';
import { onlyOneSounds } from './only-one-sounds.ts';
import { PlayingPosition, type PositionSource } from './position.ts';
import { SoundDevice, type DeviceListener } from './sound-device.ts';
import { WholeHearing } from './whole-hearing.ts';

/** What the player is doing. `waiting`: it is to play, but the browser holds the sound back until a person does something. */
type PlayerStatus = 'empty' | 'stopped' | 'starting' | 'playing' | 'waiting' | 'failed';

/** The player as screens see it; a new object whenever something changed. */
export interface PlayerSnapshot {
  readonly status: PlayerStatus;
  /** What is going on while playing: music, a silent pass, a first note, a count-in. */
  readonly stage: Stage['kind'] | null;
  /** The pass of the programme, from 0; −1 in the count-in before it. */
  readonly pass: number;
  readonly ratePercent: number;
  readonly countInBars: 0 | 1 | 2;
  readonly click: ClickSetting;
  readonly volumeDb: number;
  readonly loop: TickRange | null;
  readonly settings: ReadonlyMap<LineId, LineSetting>;
  readonly forward: LineId | null;
  readonly programme: Programme | null;
  /** What went wrong, in one sentence; null where nothing did. */
  readonly problem: string | null;
}

const beginning: PlayerSnapshot = {
  status: 'empty',
  stage: null,
  pass: 0,
  ratePercent: 100,
  countInBars: 0,
  click: silentClick,
  volumeDb: 0,
  loop: null,
  settings: new Map(),
  forward: null,
  programme: null,
  problem: null,
};

type Settable = Omit<PlayerSnapshot, 'status' | 'stage' | 'pass' | 'problem'>;

/**
 * Plays a performance. Every setting may be changed at any time and is heard at once; the sound device is opened by the
 * first `play` or `playNote`, which must come from a person's gesture. Nothing here depends on timers. Of all players
 * of a page only the one that began last goes on.
 */
export class Player {
  /** The sounding moment, for whatever moves with it. */
  readonly position: PositionSource;
  private readonly place: PlayingPosition;
  private readonly listeners = new Set<() => void>();
  private readonly capturers = new Set<(sound: CapturedSound) => void>();
  private readonly wholeListeners = new Set<() => void>();
  private readonly hearing = new WholeHearing();
  private readonly deviceListener: DeviceListener;
  private snapshot = beginning;
  private performance: Performance | null = null;
  private device: SoundDevice | null = null;
  private opening: Promise<SoundDevice | null> | null = null;
  private playCount = 0;
  private powers: LinePowers | null = null;
  private readonly meter = new LoudnessMeter((powers) => this.measured(powers));

  constructor() {
    this.place = new PlayingPosition(() => this.device?.heardSeconds ?? null);
    this.position = this.place;
    this.deviceListener = {
      told: (report) => this.follow(report),
      captured: (sound) => this.capturers.forEach((listener) => listener(sound)),
      runningChanged: (isRunning) => this.runningChanged(isRunning),
      lost: (reason) => this.lose(reason),
    };
  }

  /** Calls the listener after every change of the snapshot; returns how to end that. */
  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  readonly getSnapshot = (): PlayerSnapshot => this.snapshot;

  /** Calls the listener each time the music has sounded from its beginning to its end; returns how to end that. */
  onWhole(listener: () => void): () => void {
    this.wholeListeners.add(listener);
    return () => this.wholeListeners.delete(listener);
  }

  /** Takes a performance. While playing it goes on from the same position; settings of lines that stay are kept. */
  load(performance: Performance): void {
    this.performance = performance;
    this.powers = null;
    this.place.setPerformance(performance);
    if (this.snapshot.status === 'empty') this.place.rest(0);
    this.send({ type: 'load', performance });
    this.sendMix();
    this.change({ status: this.snapshot.status === 'empty' ? 'stopped' : this.snapshot.status });
  }

  /** Plays from these written ticks, or from where the loop or the music begins. */
  play(fromTicks?: number): void {
    void this.begin(fromTicks);
  }

  private async begin(fromTicks: number | undefined): Promise<void> {
    if (this.performance === null) return;
    onlyOneSounds.begin(this);
    this.playCount += 1;
    this.hearing.begin();
    const mine = this.playCount;
    this.change({ status: 'starting', problem: null });
    const device = await this.openDevice();
    if (device === null || mine !== this.playCount) return;
    const fromSeconds =
      fromTicks === undefined
        ? (this.loopSeconds()?.startSeconds ?? 0)
        : secondsAtTicks(this.performance.timeMap, fromTicks);
    device.send({ type: 'play', playNumber: mine, fromSeconds, countInBars: this.snapshot.countInBars });
    if (!device.isRunning) this.change({ status: 'waiting' });
  }

  /** Stops; the position stays where it was. */
  stop(): void {
    this.playCount += 1;
    this.send({ type: 'stop' });
    if (this.snapshot.status === 'empty') return;
    this.place.rest(this.place.getSeconds());
    this.change({ status: 'stopped', stage: null });
  }

  /** Puts the position somewhere without playing. */
  moveTo(ticks: number): void {
    if (this.performance === null || this.snapshot.status === 'playing') return;
    this.place.rest(secondsAtTicks(this.performance.timeMap, ticks));
  }

  /** The stretch that repeats, without a gap; null plays to the end once. */
  setLoop(loop: TickRange | null): void {
    this.set({ loop });
    this.send({ type: 'loop', loop: this.loopSeconds() });
  }

  /** The tempo, 25 to 150 per cent of the written one. */
  setRate(ratePercent: number): void {
    this.set({ ratePercent: Math.min(150, Math.max(25, ratePercent)) });
    this.send({ type: 'rate', rate: this.snapshot.ratePercent / 100 });
  }

  /** Bars of clicks before playing; a phrase that begins within a bar gets its part-bar too. */
  setCountIn(countInBars: 0 | 1 | 2): void {
    this.set({ countInBars });
  }

  /** The click: off, or on the beats and on equal parts of them. */
  setClick(click: ClickSetting): void {
    this.set({ click });
    this.send({ type: 'click', setting: click });
  }

  /** The level of everything together; the ceiling holds whatever is set. */
  setVolume(volumeDb: number): void {
    this.set({ volumeDb: Math.min(12, Math.max(-60, volumeDb)) });
    this.send({ type: 'volume', levelDb: this.snapshot.volumeDb });
  }

  /** Sets all lines at once; a line that is not named becomes plain, what is not named of a line too. */
  setMix(settings: ReadonlyMap<LineId, Partial<LineSetting>>): void {
    this.set({ settings: new Map([...settings].map(([line, part]) => [line, { ...plainSetting, ...part }])) });
    this.sendMix();
  }

  /** Changes one line and leaves the others. */
  setLine(line: LineId, part: Partial<LineSetting>): void {
    const settings = new Map(this.snapshot.settings);
    settings.set(line, { ...plainSetting, ...settings.get(line), ...part });
    this.set({ settings });
    this.sendMix();
  }

  /** One line up and the rest down together; null ends it. */
  bringForward(forward: LineId | null): void {
    this.set({ forward });
    this.sendMix();
  }

  /** What the passes over the stretch do; null simply plays. It holds from the next `play`. */
  setProgramme(programme: Programme | null): void {
    this.set({ programme });
    this.send({ type: 'programme', programme });
  }

  /** Sounds one note of the performance now, whatever is muted. Says whether the performance has it. */
  playNote(note: NoteId): boolean {
    const event = this.performance?.events.find((each) => each.note === note);
    if (event === undefined) return false;
    this.playVoice(event.voice, Math.max(0.5, event.strength), Math.min(1.6, Math.max(0.4, event.ringSeconds)));
    return true;
  }

  /** Sounds anything now: a first note, a drone, a hit. **Units** strength 0 to 1. */
  playVoice(voice: EventVoice, strength: number, seconds: number): void {
    void this.openDevice().then((device) => device?.send({ type: 'audition', voice, strength, seconds }));
  }

  /** Hands on the sound exactly as it leaves the engine, for as long as it is wanted; returns how to end that. */
  capture(listener: (sound: CapturedSound) => void): () => void {
    this.capturers.add(listener);
    this.send({ type: 'capture', isOn: true });
    return () => {
      this.capturers.delete(listener);
      if (this.capturers.size === 0) this.send({ type: 'capture', isOn: false });
    };
  }

  /** Lets the sound device go. The player can be used again. */
  async close(): Promise<void> {
    this.stop();
    onlyOneSounds.end(this);
    this.meter.close();
    const device = this.device;
    this.device = null;
    this.opening = null;
    await device?.close();
  }

  private async openDevice(): Promise<SoundDevice | null> {
    this.opening ??= SoundDevice.open(() => this.commandsOfState(), this.deviceListener).catch((problem: unknown) => {
      this.lose(
        `This browser could not open its sound: ${problem instanceof Error ? problem.message : 'no reason given'}.`,
      );
      return null;
    });
    this.device = await this.opening;
    if (this.device !== null && !this.device.isRunning) this.device.resume();
    return this.device;
  }

  private commandsOfState(): readonly EngineCommand[] {
    const { snapshot, performance } = this;
    const commands: EngineCommand[] = [
      { type: 'mix', mix: this.engineMix() },
      { type: 'volume', levelDb: snapshot.volumeDb },
      { type: 'rate', rate: snapshot.ratePercent / 100 },
      { type: 'click', setting: snapshot.click },
      { type: 'loop', loop: this.loopSeconds() },
      { type: 'programme', programme: snapshot.programme },
    ];
    if (performance !== null) commands.push({ type: 'load', performance });
    if (this.capturers.size > 0) commands.push({ type: 'capture', isOn: true });
    return commands;
  }

  private loopSeconds(): SecondsRange | null {
    const { loop } = this.snapshot;
    if (loop === null || this.performance === null) return null;
    return secondsOfRange(this.performance.timeMap, loop);
  }

  private engineMix(): EngineMix {
    const { settings, forward } = this.snapshot;
    return engineMixOf(this.performance?.lines ?? [], settings, forward, this.powers);
  }

  private sendMix(): void {
    if (this.performance === null) return;
    if (this.snapshot.forward !== null && this.powers === null) this.meter.measure(this.performance);
    this.send({ type: 'mix', mix: this.engineMix() });
  }

  /** Loudness is evened out once the lines have been measured. */
  private measured(powers: LinePowers): void {
    this.powers = powers;
    this.sendMix();
  }

  private send(command: EngineCommand): void {
    this.device?.send(command);
  }

  /** Reports of an earlier playing, or of one that has been stopped since, are late. */
  private follow(timed: TimedReport): void {
    if (timed.playNumber !== this.playCount) return;
    this.place.follow(timed);
    const { report } = timed;
    if (!report.isPlaying) this.change({ status: 'stopped', stage: null });
    else this.change({ status: 'playing', stage: report.stageKind, pass: report.pass });
    if (this.hearing.follow(report, this.performance?.lengthSeconds ?? Infinity))
      this.wholeListeners.forEach((listener) => listener());
  }

  private runningChanged(isRunning: boolean): void {
    if (isRunning && this.snapshot.status === 'waiting') this.change({ status: 'playing' });
    else if (!isRunning && this.snapshot.status === 'playing') this.change({ status: 'waiting' });
  }

  private lose(reason: string): void {
    const device = this.device;
    this.place.rest(this.place.getSeconds());
    this.device = null;
    this.opening = null;
    this.change({ status: 'failed', stage: null, problem: `${reason} Press play to try again.` });
    void device?.close();
  }

  private set(settings: Partial<Settable>): void {
    this.change(settings);
  }

  private change(part: Partial<PlayerSnapshot>): void {
    const next = { ...this.snapshot, ...part };
    const keys = Object.keys(part) as (keyof PlayerSnapshot)[];
    if (keys.every((key) => this.snapshot[key] === next[key])) return;
    this.snapshot = next;
    for (const listener of this.listeners) listener();
  }
}
