import {
  silentClick,
  type ClickSetting,
  type LineId,
  type LineSetting,
  type Programme,
  type Stage,
  type TickRange,
} from '../../music/index.ts';

/** What touching a note does: it sounds alone, or all that starts with it does, at one stroke or spread; or the music plays on from there. */
export type Touch = 'note' | 'stroke' | 'spread' | 'playOn';

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
  /** What repeats: a stretch, or all that is loaded. */
  readonly loop: TickRange | 'all' | null;
  readonly settings: ReadonlyMap<LineId, LineSetting>;
  readonly forward: LineId | null;
  readonly programme: Programme | null;
  /** What touching a note does. */
  readonly touch: Touch;
  /** The tone that is held under everything, as a MIDI note number; null where none is. */
  readonly droneMidi: number | null;
  /** What went wrong, in one sentence; null where nothing did. */
  readonly problem: string | null;
  /** How often the sound has broken off because this device could not keep up. */
  readonly breaks: number;
}

/** A player that nobody has touched. */
export const untouchedPlayer: PlayerSnapshot = {
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
  touch: 'note',
  droneMidi: null,
  problem: null,
  breaks: 0,
};

/** What a person sets; the rest follows from playing. */
export type PlayerSettings = Omit<PlayerSnapshot, 'status' | 'stage' | 'pass' | 'problem' | 'breaks'>;
