import type { Line, NoteId, Score } from '../../../music/index.ts';
import { labelWidth, placeLabels, type Box, type LabelWish } from './label-places.ts';
import type { NoteLabels } from './note-labels.ts';
import { barAt, within, type Row, type RowBar } from './rows.ts';
import type { Strand, StrandNote } from './strands.ts';

/** A label at its place, measured from the eye. */
export interface PlacedLabel {
  readonly text: string;
  readonly kind: NoteLabels['kind'];
  /** Within the eye, or written beside it. */
  readonly isInside: boolean;
  readonly dx: number;
  readonly dy: number;
}

/** A note's eye: where it stands and what it says. */
export interface EyeSpot {
  readonly note: NoteId;
  /** The line it belongs to; a shared note has one eye with both lines. */
  readonly lines: readonly Line[];
  readonly name: string;
  readonly midi: number;
  readonly startTicks: number;
  readonly bar: RowBar;
  readonly x: number;
  readonly y: number;
  /** Nothing stands in it. */
  readonly isSmall: boolean;
  /** Half its width. */
  readonly rx: number;
  readonly label: PlacedLabel | null;
}

/** How eyes are placed. **Units** pixels. */
interface EyeSetting {
  readonly xOfTicks: (ticks: number) => number;
  readonly yOfMidi: (midi: number) => number;
  /** How far eyes stand from their ribbon; negative is above. */
  readonly raise: number;
  /** Half the thickness of the thickest ribbon. */
  readonly fullHalf: number;
  readonly leftPixels: number;
  readonly score: Pick<Score, 'ticksPerQuarter'>;
  readonly labels: NoteLabels;
}

const eyeWidth = 17;
const [smallEyeHalf, eyeHalf] = [3.6, 7.9];
/** How high a label must be free, in an eye and beside it; what of an eye must stay free of words. */
const [insideHeight, wordHeight] = [15, 15];
const eyeFree = { width: 9, height: 11 };

/** How much room a note's label takes across. */
export function roomOf(note: StrandNote, { kind, texts }: NoteLabels): number {
  const width = labelWidth(texts.get(note.note) ?? '');
  return kind === 'words' ? Math.max(12, width + 4) : Math.max(eyeWidth, width + 7);
}

type BareEye = Omit<EyeSpot, 'isSmall' | 'rx' | 'label'>;

/** Every pitched note of the row once; a note that its lines show at different heights once for each. */
function bareEyes(row: Row, strands: readonly Strand[], setting: EyeSetting): readonly BareEye[] {
  const spots = new Map<string, BareEye>();
  for (const strand of strands)
    for (const note of [...strand.notes, ...strand.chordNotes]) {
      if (!within(row, note.startTicks)) continue;
      const { name, midi, startTicks } = note;
      const key = `${note.note} ${midi}`;
      const lines = [...(spots.get(key)?.lines ?? []), strand.line];
      const y = setting.yOfMidi(midi) + setting.raise;
      const place = { x: setting.xOfTicks(startTicks) + 4, y, bar: barAt(row, startTicks) };
      spots.set(key, { note: note.note, lines, name, midi, startTicks, ...place });
    }
  return [...spots.values()];
}

/** How much a label is missed: less on a beat than between, and less of a line that stands further down. */
function rankOf(eye: BareEye, strands: readonly Strand[], ticksPerQuarter: number): number {
  const ticks = eye.startTicks - eye.bar.startTicks;
  const weight = ticks === 0 ? 0 : ticks % ticksPerQuarter === 0 ? 1 : ticks % (ticksPerQuarter / 2) === 0 ? 2 : 3;
  return weight * strands.length + strands.findIndex(({ line }) => line.id === eye.lines[0]?.id);
}

/** Where words may stand: under their ribbon, above it, or one line further down; those of the uppermost line rather above. */
function wordBoxes(
  eye: BareEye,
  text: string,
  { fullHalf, raise, leftPixels }: EyeSetting,
  isUppermost: boolean,
): readonly Box[] {
  const box = { width: labelWidth(text) + 4, height: wordHeight };
  const ribbonY = eye.y - raise;
  const under = ribbonY + 0.8 * fullHalf + wordHeight / 2 + 1;
  const above = Math.min(ribbonY - 0.8 * fullHalf, eye.y - eyeFree.height / 2) - wordHeight / 2 - 1;
  const x = Math.max(eye.x, leftPixels + box.width / 2);
  const sides = isUppermost && raise === 0 ? [above, under] : [under, above];
  return [...sides, under + wordHeight].map((y) => ({ ...box, x, y }));
}

const insideBox = (eye: BareEye, text: string): Box => ({
  x: eye.x,
  y: eye.y,
  width: Math.max(eyeWidth - 1, labelWidth(text) + 4),
  height: insideHeight,
});

/** Where the row's labels stand, by their eyes. */
function placesOf(
  eyes: readonly BareEye[],
  strands: readonly Strand[],
  setting: EyeSetting,
): ReadonlyMap<BareEye, Box> {
  const { labels, score } = setting;
  const isInside = labels.kind !== 'words';
  const wishes = eyes.flatMap((eye): readonly LabelWish<BareEye>[] => {
    const text = labels.texts.get(eye.note);
    if (text === undefined) return [];
    const boxes = isInside
      ? [insideBox(eye, text)]
      : wordBoxes(eye, text, setting, eye.lines[0]?.id === strands[0]?.line.id);
    return [{ key: eye, boxes, rank: rankOf(eye, strands, score.ticksPerQuarter) }];
  });
  const obstacles = isInside ? [] : eyes.map((eye) => ({ x: eye.x, y: eye.y, ...eyeFree, of: eye }));
  return placeLabels(wishes, obstacles);
}

/** The eyes of a row’s notes, with the labels that find room. */
export function eyesOf(row: Row, strands: readonly Strand[], setting: EyeSetting): readonly EyeSpot[] {
  const { kind, texts } = setting.labels;
  const isInside = kind !== 'words';
  const eyes = bareEyes(row, strands, setting);
  const places = placesOf(eyes, strands, setting);
  return eyes.map((eye) => {
    const box = places.get(eye);
    const text = texts.get(eye.note) ?? '';
    const isSmall = box === undefined || !isInside;
    const label = box === undefined ? null : { text, kind, isInside, dx: box.x - eye.x, dy: box.y - eye.y };
    const rx = isSmall ? smallEyeHalf : Math.max(eyeHalf, labelWidth(text) / 2 + 2.4);
    return { ...eye, isSmall, rx, label };
  });
}
