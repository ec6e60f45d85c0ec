import {
  momentsAtTicks,
  secondsAtTicks,
  secondsOfRange,
  type Audition,
  type ClickSetting,
  type EngineMix,
  type EventVoice,
  type LineId,
  type LinePowers,
  type NoteId,
  type Performance,
  type Programme,
  type SecondsRange,
  type TickRange,
  engineMixOf,
  plainSetting,
  type LineSetting,
} from '../../music/index.ts';
import { BreakCount } from './break-count.ts';
import { DeviceKeeper } from './device-keeper.ts';
import { isFirstSound } from './first-sound.ts';
import type { CapturedSound, EngineCommand, TimedReport } from './messages.ts';
import { LoudnessMeter } from './loudness-meter.ts';
import { atNextOccasion } from './next-occasion.ts';
import { onlyOneSounds } from './only-one-sounds.ts';
import { PlayingPosition, type PositionSource } from './position.ts';
import { untouchedPlayer, type PlayerSettings, type PlayerSnapshot, type Touch } from './player-snapshot.ts';
import { notesSounded } from './sounded-notes.ts';
import type { SoundDevice } from './sound-device.ts';
import { WholeHearing } from './whole-hearing.ts';

/** Nearer to the end than this, the music counts as over. */
const nearEndSeconds = 0.02;

interface Beginning {
  readonly fromSeconds: number;
  readonly pass: number;
  readonly countInBars: number;
}

/**
 * Plays a performance. Every setting may be changed at any time and is heard at once; the sound device is opened by the
 * first `play` or `playNotes`, which must come from a person's gesture; one that is lost while playing is replaced. Nothing here depends on timers. Of all players
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
  private readonly breaks = new BreakCount();
  private readonly keeper: DeviceKeeper;
  private snapshot = untouchedPlayer;
  private performance: Performance | null = null;
  private playCount = 0;
  private loadCount = 0;
  private mayReopen = true;
  /** Where playing is to go on through a new device, until it does. */
  private resuming: Beginning | null = null;
  private giveUpReopening: () => void = () => undefined;
  private powers: LinePowers | null = null;
  private readonly meter = new LoudnessMeter((powers) => this.measured(powers));

  /** How another player of the page silences this one. */
  private readonly sounding = {
    stop: (): void => {
      this.stop();
      this.setDrone(null);
    },
  };

  private readonly beginsSoftly: boolean;

  /** `beginsSoftly` lets the first sound of a page rise to its level, since nobody knows how loud a device is. */
  constructor({ beginsSoftly = true }: { readonly beginsSoftly?: boolean } = {}) {
    this.beginsSoftly = beginsSoftly;
    this.keeper = new DeviceKeeper(() => this.commandsOfState(), {
      told: (report) => this.follow(report),
      captured: (sound) => this.capturers.forEach((listener) => listener(sound)),
      runningChanged: (isRunning) => this.runningChanged(isRunning),
      lost: (reason) => this.lose(reason),
    });
    this.place = new PlayingPosition(() => this.keeper.heardSeconds);
    this.position = this.place;
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

  /** Takes a performance. While playing it goes on at the same written place; settings of lines that stay are kept. */
  load(performance: Performance): void {
    this.performance = performance;
    this.loadCount += 1;
    this.powers = null;
    this.place.setPerformance(performance);
    if (this.snapshot.status === 'empty') this.place.rest(0);
    this.send(this.loading(performance));
    this.sendMix();
    this.change({ status: this.snapshot.status === 'empty' ? 'stopped' : this.snapshot.status });
  }

  /** Plays from these written ticks, or from where the loop or the music begins. */
  play(fromTicks?: number): void {
    const start = this.loopSeconds()?.startSeconds ?? 0;
    const { countInBars } = this.snapshot;
    void this.begin({ fromSeconds: fromTicks === undefined ? start : this.secondsOf(fromTicks), pass: 0, countInBars });
  }

  /** Plays on from where the music rests, in the same pass of a repeat; from the beginning where it has come to the end. */
  playOn(): void {
    const restSeconds = this.place.getSeconds();
    const { startSeconds, endSeconds } = this.loopSeconds() ?? { startSeconds: 0, endSeconds: this.lengthSeconds };
    const isWithin = restSeconds >= startSeconds && restSeconds < endSeconds - nearEndSeconds;
    const { countInBars } = this.snapshot;
    void this.begin({ fromSeconds: isWithin ? restSeconds : startSeconds, pass: 0, countInBars });
  }

  private async begin(from: Beginning): Promise<void> {
    if (this.performance === null) return;
    onlyOneSounds.begin(this.sounding);
    this.playCount += 1;
    this.hearing.begin();
    this.breaks.begin();
    const mine = this.playCount;
    this.mayReopen = true;
    this.resuming = null;
    this.giveUpReopening();
    this.change({ status: 'starting', problem: null });
    const device = await this.openDevice();
    if (device === null || mine !== this.playCount) return;
    device.send({ type: 'play', playNumber: mine, ...from });
    if (!device.isRunning) this.change({ status: 'waiting' });
  }

  /** Stops; the position stays where it was. */
  stop(): void {
    this.playCount += 1;
    this.resuming = null;
    this.giveUpReopening();
    this.send({ type: 'stop' });
    if (this.snapshot.status === 'empty') return;
    this.place.rest(this.place.getSeconds());
    this.change({ status: 'stopped', stage: null });
  }

  /** Puts the position somewhere without playing. */
  moveTo(ticks: number): void {
    if (this.performance === null || this.snapshot.status === 'playing') return;
    this.place.rest(this.secondsOf(ticks));
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

  /** What touching a note does from now on. */
  setTouch(touch: Touch): void {
    this.set({ touch });
  }

  /** Sounds notes of the performance now, whatever is muted: at one stroke, or from low to high one after the other. Says whether the performance has any. */
  playNotes(notes: readonly NoteId[], manner: 'stroke' | 'spread' = 'stroke'): boolean {
    const sounds = notesSounded(this.performance?.events ?? [], notes, manner);
    if (sounds.length > 0) this.sound(sounds);
    return sounds.length > 0;
  }

  /** Sounds anything now: a first note, a drone, a hit. **Units** strength 0 to 1. */
  playVoice(voice: EventVoice, strength: number, seconds: number): void {
    this.sound([{ voice, strength, glide: [], seconds, afterSeconds: 0 }]);
  }

  /** Holds a soft tone until it is told otherwise, whether music plays or not; null ends it. **Units** MIDI note number. */
  setDrone(droneMidi: number | null): void {
    this.set({ droneMidi });
    this.send({ type: 'drone', midi: droneMidi });
    if (droneMidi === null) return;
    onlyOneSounds.begin(this.sounding);
    void this.openDevice();
  }

  private sound(sounds: readonly Audition[]): void {
    void this.openDevice().then((device) => device?.send({ type: 'audition', sounds }));
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
    this.sounding.stop();
    onlyOneSounds.end(this.sounding);
    this.meter.close();
    await this.keeper.close();
  }

  private async openDevice(): Promise<SoundDevice | null> {
    try {
      return await this.keeper.open();
    } catch (problem) {
      this.lose(problem instanceof Error ? problem.message : 'This browser could not open its sound.');
      return null;
    }
  }

  private commandsOfState(): readonly EngineCommand[] {
    const { snapshot, performance } = this;
    const commands: EngineCommand[] = [
      { type: 'mix', mix: this.engineMix() },
      { type: 'volume', levelDb: snapshot.volumeDb },
      { type: 'rate', rate: snapshot.ratePercent / 100 },
      { type: 'click', setting: snapshot.click },
      { type: 'programme', programme: snapshot.programme },
      { type: 'drone', midi: snapshot.droneMidi },
    ];
    if (performance !== null) commands.push(this.loading(performance));
    if (this.capturers.size > 0) commands.push({ type: 'capture', isOn: true });
    if (this.beginsSoftly && isFirstSound()) commands.push({ type: 'rise' });
    return commands;
  }

  private loopSeconds(): SecondsRange | null {
    const { loop } = this.snapshot;
    if (loop === null || this.performance === null) return null;
    return secondsOfRange(this.performance.timeMap, loop);
  }

  private loading(performance: Performance): EngineCommand {
    return { type: 'load', loadNumber: this.loadCount, performance, loop: this.loopSeconds() };
  }

  private get lengthSeconds(): number {
    return this.performance?.lengthSeconds ?? 0;
  }

  /** When written ticks are played: within the stretch that repeats where it has them, else the first time. */
  private secondsOf(ticks: number): number {
    if (this.performance === null) return 0;
    const { timeMap } = this.performance;
    const loop = this.loopSeconds();
    const isWithin = (seconds: number): boolean =>
      loop !== null && seconds >= loop.startSeconds && seconds < loop.endSeconds;
    return momentsAtTicks(timeMap, ticks).find(isWithin) ?? secondsAtTicks(timeMap, ticks);
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
    this.keeper.send(command);
  }

  /** Reports of an earlier playing, of one that has been stopped since, or of earlier music are late. */
  private follow(timed: TimedReport): void {
    if (timed.playNumber !== this.playCount || timed.loadNumber !== this.loadCount) return;
    this.resuming = null;
    this.place.follow(timed);
    const { report } = timed;
    const breaks = this.breaks.follow(this.keeper.breakCount);
    if (!report.isPlaying) this.change({ status: 'stopped', stage: null, breaks });
    else this.change({ status: 'playing', stage: report.stageKind, pass: report.pass, breaks });
    if (this.hearing.follow(report, this.performance?.lengthSeconds ?? Infinity))
      this.wholeListeners.forEach((listener) => listener());
  }

  private runningChanged(isRunning: boolean): void {
    if (isRunning && this.snapshot.status === 'waiting') this.change({ status: 'playing' });
    else if (!isRunning && this.snapshot.status === 'playing') this.change({ status: 'waiting' });
  }

  /** The device is gone. What was playing goes on at the same place through a new one: at once, or else as soon as a person or a device gives occasion. */
  private lose(reason: string): void {
    const from = this.lostPlace();
    const { status } = this.snapshot;
    this.place.rest(from?.fromSeconds ?? this.place.getSeconds());
    void this.keeper.close();
    if (from === null) {
      if (status !== 'stopped') this.change({ status: 'failed', problem: `${reason} Press play to try again.` });
      return;
    }
    const goOn = (): void => {
      void this.begin(from);
      this.resuming = from;
    };
    if (status === 'playing' && this.mayReopen) {
      goOn();
      this.mayReopen = false;
    } else {
      this.giveUpReopening = atNextOccasion(goOn);
      this.change({ status: 'waiting', problem: `${reason} Touch the page, and the music goes on.` });
    }
  }

  /** Where playing was when its device was lost; null where nothing played. */
  private lostPlace(): Beginning | null {
    const { status, stage, pass, countInBars } = this.snapshot;
    if (status !== 'playing' && status !== 'waiting') return this.resuming;
    const place = { fromSeconds: this.place.getSeconds(), pass: Math.max(0, pass) };
    return this.resuming ?? { ...place, countInBars: stage === 'countIn' ? countInBars : 0 };
  }

  private set(settings: Partial<PlayerSettings>): void {
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
