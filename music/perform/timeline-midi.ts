import { barId } from '../basis/ids.ts';
import { midiOf } from '../basis/pitch.ts';
import { playingOrder } from '../form/playing-order.ts';
import {
  guitarPrograms,
  type MidiSong,
  type SongChange,
  type SongNote,
  type SongTrack,
} from '../formats/midi/midi-song.ts';
import { keyOfHit } from '../formats/midi/percussion-key.ts';
import type { Key } from '../score/score.ts';
import { lyricsIn, syllableText, versesOf, verseSung } from '../score/verses.ts';
import type {
  WrittenBar,
  WrittenDirection,
  WrittenEvent,
  WrittenHead,
  WrittenScore,
  WrittenStaff,
} from '../score/written.ts';

/** How written lines become a song. */
export interface SongOptions {
  /** `unfolded`: repeats and jumps are played; `written`: each bar once, in written order. */
  readonly repeats: 'unfolded' | 'written';
  /** Steel where none is named. */
  readonly guitar?: keyof typeof guitarPrograms;
}

/** One playing of one written bar. **Units** ticks of the written score. */
interface PlayedBar {
  readonly index: number;
  readonly bar: WrittenBar;
  readonly startTicks: number;
  /** The time through its repeat, from 0. */
  readonly pass: number;
}

/** The most ticks to a quarter that a MIDI file can count, and the fewest that its readers expect. **Source** Standard MIDI Files 1.0 for the most; the fewest is common practice, no source. */
const mostTicks = 32_767;
const fewestTicks = 480;
/** Divides by 64, 9, 5 and 7: taken where a score counts too finely. */
const coarseTicks = 20_160;

function songTicksPerQuarter(written: number): number {
  if (written > mostTicks) return coarseTicks;
  return written * Math.ceil(fewestTicks / written);
}

function playedBars(written: WrittenScore, repeats: SongOptions['repeats']): readonly PlayedBar[] {
  let startTicks = 0;
  const placed = written.bars.map((bar, index) => {
    const id = barId(String(index));
    const onsetTicks = startTicks;
    startTicks += bar.lengthTicks;
    const { label, lengthTicks, meter, key, signs, isPartial } = bar;
    return { id, ordinal: index + 1, label, onsetTicks, lengthTicks, meter, key, isImplicit: isPartial, ...signs };
  });
  const order =
    repeats === 'written'
      ? placed.map(({ id, onsetTicks }) => ({ bar: id, onsetTicks }))
      : playingOrder({ bars: placed });
  const timesPlayed = new Map<number, number>();
  return order.flatMap(({ bar: id, onsetTicks }) => {
    const index = Number(id);
    const bar = written.bars[index];
    const times = timesPlayed.get(index) ?? 0;
    timesPlayed.set(index, times + 1);
    if (bar === undefined) return [];
    return [{ index, bar, startTicks: onsetTicks, pass: (bar.signs.endings[times] ?? times + 1) - 1 }];
  });
}

/** The velocities of the written levels. **Source** common practice of notation programs, no source. */
const velocityOfLevel = { ppp: 16, pp: 33, p: 49, mp: 64, mf: 80, f: 96, ff: 112, fff: 126 } as const;
const accentVelocity = 16;

const isLevel = (level: string): level is keyof typeof velocityOfLevel => Object.hasOwn(velocityOfLevel, level);

/** Gathers the notes of one staff in the order of playing; a tie chain is one note. */
class TrackBuilder {
  readonly notes: SongNote[] = [];
  readonly hits: SongNote[] = [];
  readonly lyrics: SongChange<string>[] = [];
  private velocity: number = velocityOfLevel.mf;
  /** Notes that a tie leaves open, by their source and pitch: where each stands in its list. */
  private open = new Map<string, { readonly list: SongNote[]; readonly place: number }>();
  private readonly scale: (ticks: number) => number;

  private readonly verses: readonly string[];
  private verse: string | undefined;

  constructor(scale: (ticks: number) => number, verses: readonly string[]) {
    this.scale = scale;
    this.verses = verses;
  }

  /** Each time through a repeat has its verse, the last one once there are no more. */
  addBar(events: readonly WrittenEvent[], directions: readonly WrittenDirection[], played: PlayedBar): void {
    const { startTicks, pass } = played;
    this.verse = verseSung(versesOf(lyricsIn(events)), this.verses[pass] ?? this.verses.at(-1) ?? null);
    const levels = directions.filter((direction) => direction.kind === 'level');
    let next = 0;
    for (const event of events) {
      for (
        let level = levels[next];
        level !== undefined && level.onsetTicks <= event.onsetTicks;
        level = levels[next]
      ) {
        if (isLevel(level.level)) this.velocity = velocityOfLevel[level.level];
        next += 1;
      }
      this.addEvent(event, startTicks);
    }
  }

  private addEvent(event: WrittenEvent, barTicks: number): void {
    const startTicks = this.scale(barTicks + event.onsetTicks);
    const endTicks = this.scale(barTicks + event.onsetTicks + event.lengthTicks);
    const stillOpen: typeof this.open = new Map();
    for (const head of event.heads) this.addHead(head, startTicks, endTicks, stillOpen);
    this.open = stillOpen;
  }

  private addHead(head: WrittenHead, startTicks: number, endTicks: number, stillOpen: typeof this.open): void {
    const midi = head.sound.kind === 'hit' ? keyOfHit[head.sound.hit] : Math.round(midiOf(head.sound.pitch));
    const key = `${head.source} ${midi}`;
    const tied = head.isTiedFromBefore ? this.open.get(key) : undefined;
    const before = tied?.list[tied.place];
    const list = tied?.list ?? (head.sound.kind === 'hit' ? this.hits : this.notes);
    const place = tied?.place ?? list.length;
    const isHeld = before !== undefined && before.startTicks + before.lengthTicks === startTicks;
    if (isHeld) list[place] = { ...before, lengthTicks: endTicks - before.startTicks };
    else list.push({ startTicks, lengthTicks: endTicks - startTicks, midi, velocity: this.velocityOf(head) });
    if (!isHeld) this.addLyric(head, startTicks);
    if (head.isTiedOn) stillOpen.set(key, { list, place: isHeld ? place : list.length - 1 });
  }

  private velocityOf({ details }: WrittenHead): number {
    const isAccented = details?.techniques.some((technique) => technique === 'accent' || technique === 'strongAccent');
    return Math.min(127, this.velocity + (isAccented === true ? accentVelocity : 0));
  }

  private addLyric({ details }: WrittenHead, ticks: number): void {
    const lyric = details?.lyrics.find(({ verse, text }) => verse === this.verse && text !== '');
    if (lyric !== undefined) this.lyrics.push({ ticks, value: syllableText(lyric) });
  }
}

interface SongSetting {
  readonly written: WrittenScore;
  readonly played: readonly PlayedBar[];
  readonly scale: (ticks: number) => number;
  readonly program: number;
}

function trackOf(staff: WrittenStaff, { written, played, scale, program }: SongSetting): SongTrack {
  const builder = new TrackBuilder(scale, versesOf(staff.bars.flatMap(lyricsIn)));
  for (const bar of played) {
    const { index } = bar;
    const shared = written.bars[index]?.directions ?? [];
    const directions = [...shared, ...(staff.directions[index] ?? [])].sort((a, b) => a.onsetTicks - b.onsetTicks);
    builder.addBar(staff.bars[index] ?? [], directions, bar);
  }
  const { notes, hits, lyrics } = builder;
  return { name: staff.name, program, notes, hits, lyrics };
}

/** A bar's length as a meter: its own where it is full, else the plainest that says it. */
function barMeter({ meter, lengthTicks }: WrittenBar, ticksPerQuarter: number): MidiSong['meters'][number]['value'] {
  const unitTicks = (beatUnit: number): number => (4 * ticksPerQuarter) / beatUnit;
  const beats = meter.beats.reduce((sum, count) => sum + count, 0);
  const finer = [1, 2, 4, 8, 16].map((times) => meter.beatUnit * times);
  const unit = finer.find((beatUnit) => {
    const count = lengthTicks / unitTicks(beatUnit);
    return Number.isInteger(count) && count >= 1 && count <= 255;
  });
  return unit === undefined
    ? { beats, beatUnit: meter.beatUnit }
    : { beats: lengthTicks / unitTicks(unit), beatUnit: unit };
}

/** The values that differ from the ones before them. */
function changes<Value>(all: readonly SongChange<Value>[]): SongChange<Value>[] {
  const texts = all.map(({ value }) => JSON.stringify(value));
  return all.filter((_, index) => index === 0 || texts[index] !== texts[index - 1]);
}

function temposOf({ played, scale }: SongSetting): SongChange<number>[] {
  const tempos = played.flatMap(({ bar, startTicks }) =>
    bar.directions.flatMap((direction) =>
      direction.kind === 'tempo'
        ? [{ ticks: scale(startTicks + direction.onsetTicks), value: direction.quartersPerMinute }]
        : [],
    ),
  );
  return changes(tempos);
}

/** Written lines as a song: a named track for each staff, tempos, meters, keys and rehearsal marks as they come in playing. Grace notes are left out; hairpins and swing are not played. */
export function midiSongOf(written: WrittenScore, options: SongOptions): MidiSong {
  const ticksPerQuarter = songTicksPerQuarter(written.ticksPerQuarter);
  const scale = (ticks: number): number => Math.round((ticks * ticksPerQuarter) / written.ticksPerQuarter);
  const played = playedBars(written, options.repeats);
  const program = guitarPrograms[options.guitar ?? 'steel'];
  const setting = { written, played, scale, program };
  const last = played.at(-1);
  return {
    title: written.title,
    ticksPerQuarter,
    lengthTicks: last === undefined ? 0 : scale(last.startTicks + last.bar.lengthTicks),
    tempos: temposOf(setting),
    meters: changes(
      played.map(({ bar, startTicks }) => ({
        ticks: scale(startTicks),
        value: barMeter(bar, written.ticksPerQuarter),
      })),
    ),
    keys: changes(played.map(({ bar, startTicks }): SongChange<Key> => ({ ticks: scale(startTicks), value: bar.key }))),
    markers: played.flatMap(({ bar: { signs }, startTicks }) =>
      signs.rehearsalMark === null ? [] : [{ ticks: scale(startTicks), value: signs.rehearsalMark }],
    ),
    tracks: written.staves.map((staff) => trackOf(staff, setting)),
  };
}
