import { ticksPerQuarter, type Piece, type PieceNote } from '../form/piece.ts';

/** Something that a guitarist's two hands could not do, or not in time. */
export interface Hindrance {
  readonly kind: 'string-taken' | 'span' | 'fingers' | 'pluck' | 'thumb' | 'tap-on-ringing-string' | 'shift';
  readonly bar: string;
  readonly onsetTicks: number;
  readonly detail: string;
}

/** The four frets that lie under a hand in one position. */
const spanFrets = 3;
const fingersOfFrettingHand = 4;
/** Thumb and three fingers. */
const fingersOfPluckingHand = 4;
/** Frets that a hand may travel in an eighth note while something it has fretted goes on, and while nothing does. */
const shiftsInEighth = { holding: 2, free: 5 };

interface Moment {
  readonly onsetTicks: number;
  readonly bar: string;
  readonly struck: readonly PieceNote[];
  /** Struck now or before and still sounding; a unison of two lines once. */
  readonly sounding: readonly PieceNote[];
}

const isPitched = (note: PieceNote): boolean => note.sound.kind === 'pitched';
const isFretted = (note: PieceNote): boolean => isPitched(note) && note.fret > 0;

function withoutUnisons(notes: readonly PieceNote[]): PieceNote[] {
  const plucks = new Map<string, PieceNote>();
  for (const note of notes) {
    const key = `${note.onsetTicks}/${note.string}/${note.fret}`;
    const before = plucks.get(key);
    if (before === undefined || before.lengthTicks < note.lengthTicks) plucks.set(key, note);
  }
  return [...plucks.values()];
}

function momentsOf(piece: Piece): Moment[] {
  const onsets = [...new Set(piece.notes.map((note) => note.onsetTicks))].sort((a, b) => a - b);
  const plucks = withoutUnisons(piece.notes);
  return onsets.map((onsetTicks) => ({
    onsetTicks,
    bar: piece.bars.findLast((bar) => bar.onsetTicks <= onsetTicks)?.label ?? '',
    struck: plucks.filter((note) => note.onsetTicks === onsetTicks),
    sounding: plucks.filter((note) => note.onsetTicks <= onsetTicks && onsetTicks < note.onsetTicks + note.lengthTicks),
  }));
}

/** The fretting fingers that a hand needs: one each, but one for all notes of the lowest fret where a barre can cover them. */
function fingersNeeded(sounding: readonly PieceNote[]): number {
  const fretted = sounding.filter(isFretted);
  const lowest = Math.min(...fretted.map((note) => note.fret));
  const barred = fretted.filter((note) => note.fret === lowest).map((note) => note.string);
  const isOpenUnderBarre = sounding.some(
    (note) =>
      isPitched(note) && note.fret === 0 && note.string > Math.min(...barred) && note.string < Math.max(...barred),
  );
  return barred.length > 1 && !isOpenUnderBarre ? fretted.length - barred.length + 1 : fretted.length;
}

const name = (note: PieceNote): string => `${note.letter} on string ${note.string} at fret ${note.fret}`;

function hindrancesOfFrettingHand({ onsetTicks, bar, sounding }: Moment): Hindrance[] {
  const found: Hindrance[] = [];
  const frets = sounding.filter(isFretted).map((note) => note.fret);
  const span = Math.max(...frets) - Math.min(...frets);
  if (span > spanFrets) found.push({ kind: 'span', bar, onsetTicks, detail: `frets ${frets.join(', ')}` });
  const fingers = fingersNeeded(sounding);
  if (fingers > fingersOfFrettingHand) found.push({ kind: 'fingers', bar, onsetTicks, detail: `${fingers} fingers` });
  return found;
}

function hindrancesOfStrings({ onsetTicks, bar, struck, sounding }: Moment): Hindrance[] {
  return struck.flatMap((note): Hindrance[] => {
    const other = sounding.find((candidate) => candidate !== note && candidate.string === note.string);
    if (other === undefined) return [];
    const kind = isPitched(note) && isPitched(other) ? 'string-taken' : 'tap-on-ringing-string';
    return [{ kind, bar, onsetTicks, detail: `${name(note)} meets ${name(other)}` }];
  });
}

function hindrancesOfPluckingHand(piece: Piece, { onsetTicks, bar, struck }: Moment): Hindrance[] {
  const plucked = struck.filter(isPitched);
  const found: Hindrance[] = [];
  if (plucked.length > fingersOfPluckingHand)
    found.push({ kind: 'pluck', bar, onsetTicks, detail: `${plucked.length} strings at once` });
  const bassLetters = piece.lines.filter((line) => line.role === 'bass').map((line) => line.letter);
  const thumb = plucked.find((note) => bassLetters.includes(note.letter));
  const below = plucked.find((note) => thumb !== undefined && note !== thumb && note.string >= thumb.string);
  if (thumb !== undefined && (thumb.string < 4 || below !== undefined))
    found.push({ kind: 'thumb', bar, onsetTicks, detail: name(below ?? thumb) });
  return found;
}

/** Where the hand can be: its first finger lies at one of these frets. */
function positionsOf(moment: Moment): { low: number; high: number } | null {
  const frets = moment.sounding.filter(isFretted).map((note) => note.fret);
  if (frets.length === 0) return null;
  return { low: Math.max(1, Math.max(...frets) - spanFrets), high: Math.min(...frets) };
}

/** The hand moves no further than it must from one moment to the next. */
function hindrancesOfTravel(moments: readonly Moment[]): Hindrance[] {
  const found: Hindrance[] = [];
  let position: number | null = null;
  let sinceTicks = 0;
  for (const moment of moments) {
    const reach = positionsOf(moment);
    if (reach === null) continue;
    const from: number = position ?? reach.low;
    const to = Math.min(Math.max(from, reach.low), reach.high);
    const isHolding = moment.sounding.some((note) => isFretted(note) && note.onsetTicks < moment.onsetTicks);
    const eighths = (moment.onsetTicks - sinceTicks) / (ticksPerQuarter / 2);
    const allowed = (isHolding ? shiftsInEighth.holding : shiftsInEighth.free) * Math.max(1, eighths);
    if (Math.abs(to - from) > allowed)
      found.push({ kind: 'shift', bar: moment.bar, onsetTicks: moment.onsetTicks, detail: `from ${from} to ${to}` });
    position = to;
    sinceTicks = moment.onsetTicks;
  }
  return found;
}

/**
 * Everything in a piece that two hands could not play: nothing where the piece is playable. Four frets lie under the
 * hand, open strings are free, each string sounds one note, the thumb plays the bass on strings 4 to 6.
 */
export function hindrancesOf(piece: Piece): Hindrance[] {
  const moments = momentsOf(piece);
  return [
    ...moments.flatMap((moment) => [
      ...hindrancesOfStrings(moment),
      ...hindrancesOfFrettingHand(moment),
      ...hindrancesOfPluckingHand(piece, moment),
    ]),
    ...hindrancesOfTravel(moments),
  ];
}
