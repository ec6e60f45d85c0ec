import {
  plainSetting,
  type Audition,
  type ClickSetting,
  type EventVoice,
  type LineId,
  type LineSetting,
  type NoteId,
  type Performance,
  type Programme,
  type TickRange,
} from '../../music/index.ts';
import { BreakCount } from './break-count.ts';
import { DeviceKeeper } from './device-keeper.ts';
import { isFirstSound } from './first-sound.ts';
import { GoingOn, type Beginning } from './going-on.ts';
import { LoadedMusic } from './loaded-music.ts';
import type { CapturedSound, EngineCommand, TimedReport } from './messages.ts';
import { onlyOneSounds } from './only-one-sounds.ts';
import type { PlayerSnapshot, Touch } from './player-snapshot.ts';
import { PlayerState } from './player-state.ts';
import { PlayingPosition, type PositionSource } from './position.ts';
import type { SoundDevice } from './sound-device.ts';
import { notesSounded } from './sounded-notes.ts';
import { WholeHearing } from './whole-hearing.ts';

/** Nearer to the end than this, the music counts as over. */
const nearEndSeconds = 0.02;

/**
 * Plays a performance. Every setting may be changed at any time and is heard at once; the sound device is opened by the
 * first `play` or `playNotes`, which must come from a person's gesture; one that is lost while playing is replaced. Nothing here depends on timers. Of all players
 * of a page only the one that began last goes on.
 */
export class Player {
  /** The sounding moment, for whatever moves with it. */
  readonly position: PositionSource;
  private readonly place: PlayingPosition;
  private readonly state = new PlayerState();
  readonly subscribe = this.state.subscribe;
  readonly getSnapshot = this.state.getSnapshot;
  private readonly capturers = new Set<(sound: CapturedSound) => void>();
  private readonly wholeListeners = new Set<() => void>();
  private readonly hearing = new WholeHearing();
  private readonly breaks = new BreakCount();
  private readonly keeper: DeviceKeeper;
  private readonly music = new LoadedMusic(this.getSnapshot, () => this.sendMix());
  private readonly goingOn = new GoingOn();
  private playCount = 0;

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

  /** Calls the listener each time the music has sounded from its beginning to its end; returns how to end that. */
  onWhole(listener: () => void): () => void {
    this.wholeListeners.add(listener);
    return () => this.wholeListeners.delete(listener);
  }

  /** Takes a performance. While playing it goes on at the same written place; settings of lines that stay are kept. */
  load(performance: Performance): void {
    const { status } = this.getSnapshot();
    this.music.load(performance);
    this.place.setPerformance(performance);
    if (status === 'empty') this.place.rest(0);
    for (const command of this.commandsOfMusic()) this.send(command);
    this.change({ status: status === 'empty' ? 'stopped' : status });
  }

  /** Plays from these written ticks, or from where the loop or the music begins. */
  play(fromTicks?: number): void {
    const { startSeconds } = this.music.playedSeconds();
    const { countInBars } = this.getSnapshot();
    const fromSeconds = fromTicks === undefined ? startSeconds : this.music.secondsOf(fromTicks);
    void this.begin({ fromSeconds, pass: 0, countInBars });
  }

  /** Plays on from where the music rests, in the same pass of a repeat; from the beginning where it has come to the end. */
  playOn(): void {
    const restSeconds = this.place.getSeconds();
    const { startSeconds, endSeconds } = this.music.playedSeconds();
    const isWithin = restSeconds >= startSeconds && restSeconds < endSeconds - nearEndSeconds;
    const { countInBars } = this.getSnapshot();
    void this.begin({ fromSeconds: isWithin ? restSeconds : startSeconds, pass: 0, countInBars });
  }

  private async begin(from: Beginning): Promise<void> {
    if (this.music.performance === null) return;
    onlyOneSounds.begin(this.sounding);
    this.playCount += 1;
    this.hearing.begin();
    this.breaks.begin();
    const mine = this.playCount;
    this.goingOn.begin();
    this.change({ status: 'starting', problem: null });
    const device = await this.openDevice();
    if (device === null || mine !== this.playCount) return;
    device.send({ type: 'play', playNumber: mine, ...from });
    if (!device.isRunning) this.change({ status: 'waiting' });
  }

  /** Stops; the position stays where it was. */
  stop(): void {
    this.playCount += 1;
    this.goingOn.forget();
    this.send({ type: 'stop' });
    if (this.getSnapshot().status === 'empty') return;
    this.place.rest(this.place.getSeconds());
    this.change({ status: 'stopped', stage: null });
  }

  /** Puts the position somewhere without playing. */
  moveTo(ticks: number): void {
    if (this.music.performance === null || this.getSnapshot().status === 'playing') return;
    this.place.rest(this.music.secondsOf(ticks));
  }

  /** The stretch that repeats, or all, without a gap; null plays to the end once. */
  setLoop(loop: TickRange | 'all' | null): void {
    this.change({ loop });
    this.send({ type: 'loop', loop: this.music.loopSeconds() });
  }

  /** The tempo, 25 to 150 per cent of the written one. */
  setRate(ratePercent: number): void {
    this.change({ ratePercent: Math.min(150, Math.max(25, ratePercent)) });
    this.send({ type: 'rate', rate: this.getSnapshot().ratePercent / 100 });
  }

  /** Bars of clicks before playing; a phrase that begins within a bar gets its part-bar too. */
  setCountIn(countInBars: 0 | 1 | 2): void {
    this.change({ countInBars });
  }

  /** The click: off, or on the beats and on equal parts of them. */
  setClick(click: ClickSetting): void {
    this.change({ click });
    this.send({ type: 'click', setting: click });
  }

  /** The level of everything together; the ceiling holds whatever is set. */
  setVolume(volumeDb: number): void {
    this.change({ volumeDb: Math.min(12, Math.max(-60, volumeDb)) });
    this.send({ type: 'volume', levelDb: this.getSnapshot().volumeDb });
  }

  /** Sets all lines at once; a line that is not named becomes plain, what is not named of a line too. */
  setMix(settings: ReadonlyMap<LineId, Partial<LineSetting>>): void {
    this.change({ settings: new Map([...settings].map(([line, part]) => [line, { ...plainSetting, ...part }])) });
    this.sendMix();
  }

  /** Changes one line and leaves the others. */
  setLine(line: LineId, part: Partial<LineSetting>): void {
    const settings = new Map(this.getSnapshot().settings);
    settings.set(line, { ...plainSetting, ...settings.get(line), ...part });
    this.change({ settings });
    this.sendMix();
  }

  /** One line up and the rest down together; null ends it. */
  bringForward(forward: LineId | null): void {
    this.change({ forward });
    this.sendMix();
  }

  /** What the passes over the stretch do; null simply plays. It holds from the next `play`. */
  setProgramme(programme: Programme | null): void {
    this.change({ programme });
    this.send({ type: 'programme', programme });
  }

  /** What touching a note does from now on. */
  setTouch(touch: Touch): void {
    this.change({ touch });
  }

  /** Sounds notes of the performance now, whatever is muted: at one stroke, or from low to high one after the other. Says whether the performance has any. */
  playNotes(notes: readonly NoteId[], manner: 'stroke' | 'spread' = 'stroke'): boolean {
    const sounds = notesSounded(this.music.performance?.events ?? [], notes, manner);
    if (sounds.length > 0) this.sound(sounds);
    return sounds.length > 0;
  }

  /** Sounds anything now: a first note, a drone, a hit. **Units** strength 0 to 1. */
  playVoice(voice: EventVoice, strength: number, seconds: number): void {
    this.sound([{ voice, strength, glide: [], seconds, afterSeconds: 0 }]);
  }

  /** Holds a soft tone until it is told otherwise, whether music plays or not; null ends it. **Units** MIDI note number. */
  setDrone(droneMidi: number | null): void {
    this.change({ droneMidi });
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
    this.music.close();
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
    const { volumeDb, ratePercent, click, programme, droneMidi } = this.getSnapshot();
    const commands: EngineCommand[] = [
      ...this.commandsOfMusic(),
      { type: 'volume', levelDb: volumeDb },
      { type: 'rate', rate: ratePercent / 100 },
      { type: 'click', setting: click },
      { type: 'programme', programme },
      { type: 'drone', midi: droneMidi },
    ];
    if (this.capturers.size > 0) commands.push({ type: 'capture', isOn: true });
    if (this.beginsSoftly && isFirstSound()) commands.push({ type: 'rise' });
    return commands;
  }

  private commandsOfMusic(): readonly EngineCommand[] {
    const loading = this.music.loading();
    return loading === null ? [] : [loading, { type: 'mix', mix: this.music.mix() }];
  }

  private sendMix(): void {
    if (this.music.performance !== null) this.send({ type: 'mix', mix: this.music.mix() });
  }

  private send(command: EngineCommand): void {
    this.keeper.send(command);
  }

  /** Reports of an earlier playing, of one that has been stopped since, or of earlier music are late. */
  private follow(timed: TimedReport): void {
    if (timed.playNumber !== this.playCount || timed.loadNumber !== this.music.loadNumber) return;
    this.goingOn.place = null;
    this.place.follow(timed);
    const { report } = timed;
    const breaks = this.breaks.follow(this.keeper.breakCount);
    if (!report.isPlaying) this.change({ status: 'stopped', stage: null, breaks });
    else this.change({ status: 'playing', stage: report.stageKind, pass: report.pass, breaks });
    if (this.hearing.follow(report, this.music.performance?.lengthSeconds ?? Infinity))
      this.wholeListeners.forEach((listener) => listener());
  }

  private runningChanged(isRunning: boolean): void {
    if (isRunning && this.getSnapshot().status === 'waiting') this.change({ status: 'playing' });
    else if (!isRunning && this.getSnapshot().status === 'playing') this.change({ status: 'waiting' });
  }

  /** The device is gone. What was playing goes on at the same place through a new one: at once, or else as soon as a person or a device gives occasion. */
  private lose(reason: string): void {
    const from = this.lostPlace();
    const { status } = this.getSnapshot();
    this.place.rest(from?.fromSeconds ?? this.place.getSeconds());
    void this.keeper.close();
    if (from === null) {
      if (status !== 'stopped') this.change({ status: 'failed', problem: `${reason} Press play to try again.` });
      return;
    }
    const when = this.goingOn.from(from, status === 'playing', (place) => void this.begin(place));
    if (when === 'later')
      this.change({ status: 'waiting', problem: `${reason} Touch the page, and the music goes on.` });
  }

  /** Where playing was when its device was lost; null where nothing played. */
  private lostPlace(): Beginning | null {
    const { status, stage, pass, countInBars } = this.getSnapshot();
    if (status !== 'playing' && status !== 'waiting') return this.goingOn.place;
    const place = { fromSeconds: this.place.getSeconds(), pass: Math.max(0, pass) };
    return this.goingOn.place ?? { ...place, countInBars: stage === 'countIn' ? countInBars : 0 };
  }

  private change(part: Partial<PlayerSnapshot>): void {
    this.state.change(part);
  }
}
