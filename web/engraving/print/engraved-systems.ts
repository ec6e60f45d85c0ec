import { activeLines, type Bar, type LineId, type NoteId, type Split } from '../../../music/index.ts';
import { lastTicksOfLines, type SheetLook } from '../look.ts';
import { twoDyePaints } from '../paint-heads.ts';
import { slicesOfBars } from '../plan-systems.ts';
import { setSystems } from '../sheet-setting.ts';
import { Strip, type SheetSource, type StripMeasures } from '../strip.ts';
import { collectShapes, tagsOfHeads } from './collect-shapes.ts';
import { inkShapes, groundSentinel, type Inks } from './shape-inks.ts';
import type { Drawing } from './shape.ts';
import type { TypeOutlines } from './type-outlines.ts';

/** What is engraved for a file, and how it is to look. */
export interface EngravingOrder {
  readonly source: SheetSource;
  readonly bars: readonly Bar[];
  readonly look: SheetLook;
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

/** Told after each system. */
export type OnSystem = (done: number, total: number) => void;

const settingOf = (look: SheetLook): Omit<StripMeasures, 'width'> => ({
  inset: activeLines(look.split).length === 0 ? 6 : 64,
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

/** Engraves bars system by system, aside from what the page shows, by the code that engraves the screen. */
export async function engraveSystems(
  order: EngravingOrder,
  outlines: TypeOutlines,
  onSystem: OnSystem,
): Promise<EngravedSystems> {
  const { source, bars, look } = order;
  const host = offScreenHost(order.isForDark);
  const setting = settingOf(look);
  const planned = setSystems(bars, slicesOfBars(source.score), order.width, setting);
  const notes = new Map(source.score.notes.map((note) => [note.id, note]));
  const lastTicks = lastTicksOfLines(source.score.notes, look.split);
  const systems: Drawing[] = [];
  let missing = '';
  try {
    for (const [index, { plan, width }] of planned.entries()) {
      const before = index === 0 ? barBefore(source, plan.bars[0]) : (planned[index - 1]?.plan.bars.at(-1) ?? null);
      const strip = new Strip(source, plan.bars, before, { ...setting, width }, index === 0, notes);
      host.append(strip.element);
      await strip.draw();
      strip.paint(look, { cursor: null, slice: [] }, (line) => (lastTicks.get(line) ?? -1) >= strip.endTicks);
      const drawn = await drawingOf(strip, order, outlines, setting.inset + width);
      systems.push(drawn.drawing);
      missing += drawn.missing;
      strip.element.remove();
      onSystem(index + 1, planned.length);
    }
  } finally {
    host.remove();
  }
  return { systems, missing };
}

const barBefore = ({ score }: SheetSource, bar: Bar | undefined): Bar | null =>
  score.bars[score.bars.findIndex(({ id }) => id === bar?.id) - 1] ?? null;

async function drawingOf(
  strip: Strip,
  { look, inks, source }: EngravingOrder,
  outlines: TypeOutlines,
  width: number,
): Promise<{ readonly drawing: Drawing; readonly missing: string }> {
  const lettersOf = linesOfNotes(look.split);
  const letterOf = new Map<string, string>(activeLines(look.split).map((line) => [line.id, line.letter]));
  const tagOf = tagsOfHeads(strip.drawn?.heads ?? [], (head) => {
    const own = source.lineOfHead.get(head.head);
    return own === undefined ? lettersOf(head.note) : [letterOf.get(own) ?? ''];
  });
  const { shapes, words, missing } = await collectShapes({ host: strip.element, outlines, tagOf });
  return { drawing: { width, height: strip.height, shapes: inkShapes(shapes, inks), words }, missing };
}
