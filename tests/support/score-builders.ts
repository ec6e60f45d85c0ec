import { barId, headId, noteId, partId } from '../../music/basis/ids.ts';
import { midiOf, type Pitch } from '../../music/basis/pitch.ts';
import { noMarks } from '../../music/score/marks.ts';
import type {
  Bar,
  HitKind,
  Meter,
  NoteSound,
  Ornament,
  Rest,
  Score,
  SoundingNote,
  SourceVoice,
} from '../../music/score/score.ts';

/** Divides by 2 to the sixth, 9, 5 and 7, so that every common tuplet is exact. */
export const ticksPerQuarter = 20_160;

export interface NoteExtra {
  readonly string?: number;
  readonly fret?: number;
  readonly techniques?: SoundingNote['techniques'];
  readonly ornaments?: readonly Ornament[];
  readonly pluckingFinger?: SoundingNote['pluckingFinger'];
  readonly stem?: SourceVoice['stem'];
}

/** One thing of a voice: notes struck together, or a rest where there are none. */
export interface Item {
  readonly sounds: readonly NoteSound[];
  readonly quarters: number;
  readonly extra: NoteExtra;
}

/** One bar to build: its meter, its own length where that differs, and whatever else a test wants of it. */
export interface BarPlan extends Partial<Omit<Bar, 'meter' | 'lengthTicks' | 'onsetTicks' | 'ordinal'>> {
  readonly meter: Meter;
  readonly quarters?: number;
}

/** `meter(4, 4)`, `meter([3, 2], 8)`. */
export const meter = (beats: number | readonly number[], beatUnit: number): Meter => ({
  beats: typeof beats === 'number' ? [beats] : beats,
  beatUnit,
});

/** Bars that begin with a pickup of so many quarters. */
export const pickup = (barMeter: Meter, quarters: number): readonly BarPlan[] => [
  { meter: barMeter, quarters, isImplicit: true, label: '0' },
  { meter: barMeter },
];

const meterQuarters = (barMeter: Meter): number =>
  (barMeter.beats.reduce((sum, beats) => sum + beats, 0) * 4) / barMeter.beatUnit;

/** `C4`, `F#3`, `Bb2`. */
function pitch(name: string): Pitch {
  const match = /^([A-G])(#|b)?(-?\d)$/.exec(name);
  if (match === null) throw new Error(`not a pitch: ${name}`);
  const alter = match[2] === '#' ? 1 : match[2] === 'b' ? -1 : 0;
  return { step: match[1] as Pitch['step'], alter, octave: Number(match[3]) };
}

const pitched = (name: string): NoteSound => {
  const sounding = pitch(name);
  return {
    kind: 'pitched',
    written: { ...sounding, octave: sounding.octave + 1 },
    sounding,
    soundingMidi: midiOf(sounding),
  };
};

/** A note by its sounding pitch. */
export const note = (name: string, quarters: number, extra: NoteExtra = {}): Item => ({
  sounds: [pitched(name)],
  quarters,
  extra,
});
export const chord = (names: readonly string[], quarters: number, extra: NoteExtra = {}): Item => ({
  sounds: names.map(pitched),
  quarters,
  extra,
});
export const rest = (quarters: number): Item => ({ sounds: [], quarters, extra: {} });
export const hit = (quarters: number, kind: HitKind = 'lowBody'): Item => ({
  sounds: [{ kind: 'hit', hit: kind, isCertain: true }],
  quarters,
  extra: {},
});

const ticksOf = (quarters: number): number => Math.round(quarters * ticksPerQuarter);

function barsFor(plans: readonly BarPlan[], endTicks: number): readonly Bar[] {
  const bars: Bar[] = [];
  let onsetTicks = 0;
  while (onsetTicks < endTicks || bars.length < plans.length) {
    const { quarters, ...plan } = plans[Math.min(bars.length, plans.length - 1)]!;
    const ordinal = bars.length + 1;
    const lengthTicks = ticksOf(quarters ?? meterQuarters(plan.meter));
    const plain = { startsRepeat: false, repeatTimes: 0, endings: [], jumps: [], rehearsalMark: null };
    const key = { fifths: 0, mode: null };
    bars.push({
      id: barId(`b${ordinal}`),
      label: String(ordinal),
      isImplicit: false,
      key,
      ...plain,
      ...plan,
      ordinal,
      onsetTicks,
      lengthTicks,
    });
    onsetTicks += lengthTicks;
  }
  return bars;
}

interface PlacedItem {
  readonly item: Item;
  readonly onsetTicks: number;
  readonly voice: SourceVoice;
}

function place(items: readonly Item[], voiceIndex: number): readonly PlacedItem[] {
  let onsetTicks = 0;
  return items.map((item) => {
    const stem = item.extra.stem ?? null;
    const voice: SourceVoice = { part: partId('P1'), staff: 1, voice: String(voiceIndex + 1), stem };
    const placed = { item, onsetTicks, voice };
    onsetTicks += ticksOf(item.quarters);
    return placed;
  });
}

function notesOf(placed: PlacedItem, bar: Bar): readonly Omit<SoundingNote, 'id' | 'heads'>[] {
  const { string, fret, techniques, ornaments, pluckingFinger } = placed.item.extra;
  return placed.item.sounds.map((sound) => ({
    bar: bar.id,
    onsetTicks: placed.onsetTicks,
    lengthTicks: ticksOf(placed.item.quarters),
    sound,
    voices: [placed.voice],
    fingerboard: string === undefined ? null : { string, fret: fret ?? 0 },
    techniques: techniques ?? [],
    ...(ornaments === undefined ? {} : { ornaments }),
    pluckingFinger: pluckingFinger ?? null,
    frettingFinger: null,
  }));
}

/** A score of several voices of one part over the same bars; notes are named n1, n2 … by onset, then by voice. */
export function voices(opening: Meter | readonly BarPlan[], ...voiceItems: readonly (readonly Item[])[]): Score {
  const plans: readonly BarPlan[] = 'beats' in opening ? [{ meter: opening }] : opening;
  const placed = voiceItems.flatMap(place).sort((left, right) => left.onsetTicks - right.onsetTicks);
  const bars = barsFor(
    plans,
    Math.max(0, ...placed.map(({ item, onsetTicks }) => onsetTicks + ticksOf(item.quarters))),
  );
  const barAt = (ticks: number): Bar => bars.findLast((bar) => bar.onsetTicks <= ticks)!;
  const notes = placed
    .flatMap((entry) => notesOf(entry, barAt(entry.onsetTicks)))
    .map((raw, index) => ({ ...raw, id: noteId(`n${index + 1}`), heads: [headId(`n${index + 1}`)] }));
  const rests: readonly Rest[] = placed
    .filter(({ item }) => item.sounds.length === 0)
    .map(({ item, onsetTicks, voice }) => ({
      bar: barAt(onsetTicks).id,
      voice,
      onsetTicks,
      lengthTicks: ticksOf(item.quarters),
    }));
  const staves = ['notation'] as const;
  const part = {
    id: partId('P1'),
    name: 'Guitar',
    staves,
    tuning: [64, 59, 55, 50, 45, 40],
    capoFret: 0,
    soundingShift: -12,
    pairedWith: null,
  };
  const tempos = [{ onsetTicks: 0, quartersPerMinute: 100 }];
  return {
    title: 'Built',
    composer: '',
    ticksPerQuarter,
    parts: [part],
    bars,
    notes,
    graces: [],
    rests,
    tempos,
    dynamics: [],
    ...noMarks,
  };
}

/** A score of one voice: `line(meter(4, 4), note('C4', 1), rest(3))`. */
export const line = (opening: Meter | readonly BarPlan[], ...items: readonly Item[]): Score => voices(opening, items);
