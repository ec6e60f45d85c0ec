import { activeLines, type Bar, type LineId, type NoteId, type Split } from '../../../music/index.ts';
import { lastTicksOfLines, type SheetLook } from '../look.ts';
import { twoDyePaints } from '../paint-heads.ts';
import { slicesOfBars } from '../plan-systems.ts';
import { setSystems } from '../sheet-setting.ts';
import { Strip, type SheetSource, type StaffName, type StripMeasures } from '../strip.ts';
import { collectShapes, tagsOfHeads } from './collect-shapes.ts';
import { inkShapes, groundSentinel, type Inks } from './shape-inks.ts';
import type { Drawing } from './shape.ts';
import { roomForNames, staffNames } from './staff-names.ts';
import type { TypeOutlines } from './type-outlines.ts';
import { nothingSet, together, type Typeset } from './typeset.ts';

/** What is engraved for a file, and how it is to look. */
export interface EngravingOrder {
  readonly source: SheetSource;
  readonly bars: readonly Bar[];
  readonly look: SheetLook;
  /** Whether names stand before the staves. */
  readonly hasNames: boolean;
  readonly inks: Inks;
  /** Whether the lines' colours lighten, for a dark ground. */
  readonly isForDark: boolean;
  /** The width that systems may fill. **Units** pixels, ten to a staff space. */
  readonly width: number;
}

/** Systems as pictures, and the letters that no face of ours has. */
export interface EngravedSystems {
  readonly systems: readonly Drawing[];
  readonly missing: string;
}

interface SetStrip {
  readonly strip: Strip;
  /** Of the music and all that stands before it. */
  readonly width: number;
  readonly isFirst: boolean;
}

/** Told after each system. */
export type OnSystem = (done: number, total: number) => void;

/** The room for the lines' eyes, where there are any. */
const insetOf = (look: SheetLook): number => (activeLines(look.split).length === 0 ? 6 : 64);

const settingOf = (look: SheetLook, nameRoom: number): Omit<StripMeasures, 'width'> => ({
  inset: nameRoom + insetOf(look),
  zoom: 1,
  eyes: { centreX: -40, height: 36, spacing: 36 },
  thickness: 3.1,
});

/** A place in the page where nobody looks, in which the engraver can measure. */
function offScreenHost(isForDark: boolean): HTMLElement {
  const host = document.createElement('div');
  host.setAttribute('aria-hidden', 'true');
  host.inert = true;
  host.style.cssText = `position:fixed;left:-30000px;top:0;width:2000px;color-scheme:${isForDark ? 'dark' : 'light'};--paper:${groundSentinel};`;
  host.append(twoDyePaints());
  document.body.append(host);
  return host;
}

const linesOfNotes = (split: Split): ((note: NoteId) => readonly string[]) => {
  const letters = new Map<LineId, string>(activeLines(split).map((line) => [line.id, line.letter]));
  return (note) => (split.marks.get(note)?.lines ?? []).flatMap((line) => letters.get(line) ?? []);
};

/** The room that names take before the first system and before later ones. */
async function nameRooms(
  { source, hasNames }: EngravingOrder,
  outlines: TypeOutlines,
): Promise<{ readonly first: number; readonly later: number }> {
  const names = hasNames ? [...source.staffNames.values()] : [];
  const roomOf = (part: keyof StaffName): Promise<number> =>
    roomForNames(
      names.map((name) => name[part]),
      outlines,
    );
  return { first: await roomOf('full'), later: await roomOf('short') };
}

/** Systems that are still to be drawn; the first one begins further right where its names are longer. */
async function setStrips(order: EngravingOrder, outlines: TypeOutlines): Promise<readonly SetStrip[]> {
  const { source, bars, look, width } = order;
  const { first, later } = await nameRooms(order, outlines);
  const widest = settingOf(look, Math.max(first, later));
  const notes = new Map(source.score.notes.map((note) => [note.id, note]));
  const planned = setSystems(bars, slicesOfBars(source.score), width, widest);
  return planned.map(({ plan, width: musicWidth }, index) => {
    const setting = settingOf(look, index === 0 ? first : later);
    const before = index === 0 ? barBefore(source, plan.bars[0]) : (planned[index - 1]?.plan.bars.at(-1) ?? null);
    const measures = { ...setting, width: musicWidth + widest.inset - setting.inset };
    return {
      strip: new Strip(source, plan.bars, before, measures, index === 0, notes),
      width: widest.inset + musicWidth,
      isFirst: index === 0,
    };
  });
}

/** Engraves bars system by system, aside from what the page shows, by the code that engraves the screen. */
export async function engraveSystems(
  order: EngravingOrder,
  outlines: TypeOutlines,
  onSystem: OnSystem,
): Promise<EngravedSystems> {
  const { source, look } = order;
  const set = await setStrips(order, outlines);
  const lastTicks = lastTicksOfLines(source.score.notes, look.split);
  const host = offScreenHost(order.isForDark);
  const systems: Drawing[] = [];
  let missing = '';
  try {
    for (const [index, one] of set.entries()) {
      const { strip } = one;
      host.append(strip.element);
      await strip.draw();
      strip.paint(look, { cursor: null, slice: [] }, (line) => (lastTicks.get(line) ?? -1) >= strip.endTicks);
      const drawn = await drawingOf(one, order, outlines);
      systems.push(drawn.drawing);
      missing += drawn.missing;
      strip.element.remove();
      onSystem(index + 1, set.length);
    }
  } finally {
    host.remove();
  }
  return { systems, missing };
}

const barBefore = ({ score }: SheetSource, bar: Bar | undefined): Bar | null =>
  score.bars[score.bars.findIndex(({ id }) => id === bar?.id) - 1] ?? null;

/** What the names of a strip's staves look like, beside the eyes. */
async function namesOf(
  { strip, isFirst }: SetStrip,
  { hasNames, inks, look, source }: EngravingOrder,
  outlines: TypeOutlines,
): Promise<Typeset> {
  const right = strip.inset - insetOf(look);
  const system = strip.drawn?.systems[0];
  if (!hasNames || system === undefined) return nothingSet;
  return staffNames(system, (part) => source.staffNames.get(part), { right, isFirst, colour: inks.ink }, outlines);
}

async function drawingOf(
  set: SetStrip,
  order: EngravingOrder,
  outlines: TypeOutlines,
): Promise<{ readonly drawing: Drawing; readonly missing: string }> {
  const { look, inks, source } = order;
  const { strip, width } = set;
  const lettersOf = linesOfNotes(look.split);
  const letterOf = new Map<string, string>(activeLines(look.split).map((line) => [line.id, line.letter]));
  const tagOf = tagsOfHeads(strip.drawn?.heads ?? [], (head) => {
    const own = source.lineOfHead.get(head.head);
    return own === undefined ? lettersOf(head.note) : [letterOf.get(own) ?? ''];
  });
  const music = await collectShapes({ host: strip.element, outlines, tagOf });
  const all = together([{ ...music, shapes: inkShapes(music.shapes, inks) }, await namesOf(set, order, outlines)]);
  return {
    drawing: { width, height: strip.height, shapes: all.shapes, words: all.words },
    missing: all.missing,
  };
}
