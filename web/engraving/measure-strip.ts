import type { GraphicalMeasure, MusicSystem, OpenSheetMusicDisplay, StaffLine } from 'opensheetmusicdisplay';
import type { Bar, HeadId, NoteId } from '../../music/index.ts';
import type { DrawnBar, DrawnHead, DrawnStaff, DrawnStrip, DrawnSystem, TimePoint } from './geometry.ts';
import { mapHeads } from './note-map.ts';

/** What turns the engraver's places into ours. */
export interface StripScale {
  readonly zoom: number;
  readonly ticksPerQuarter: number;
  readonly bars: readonly Bar[];
  readonly noteOfHead: ReadonlyMap<HeadId, NoteId>;
}

/** Where everything of a rendered strip stands, in pixels of its own svg. */
export function measureStrip(osmd: OpenSheetMusicDisplay, scale: StripScale): DrawnStrip {
  const unit = 10 * scale.zoom;
  const musicSystems = osmd.GraphicSheet.MusicPages.flatMap((page) => page.MusicSystems);
  const systemOfMeasure = new Map<GraphicalMeasure, number>();
  musicSystems.forEach((system, index) => {
    for (const row of system.GraphicalMeasures) for (const measure of row) systemOfMeasure.set(measure, index);
  });
  const svg = osmd.Drawer.Backends[0]?.getInnerElement();
  const bounds = svg?.getBoundingClientRect();
  return {
    width: bounds?.width ?? 0,
    height: bounds?.height ?? 0,
    heads: drawnHeads(osmd, scale, systemOfMeasure),
    systems: musicSystems.map((system) => drawnSystem(system, unit, scale)),
  };
}

function drawnHeads(
  osmd: OpenSheetMusicDisplay,
  scale: StripScale,
  systemOfMeasure: ReadonlyMap<GraphicalMeasure, number>,
): readonly DrawnHead[] {
  const heads: DrawnHead[] = [];
  for (const { head, kind, element, measure } of mapHeads(osmd)) {
    const note = scale.noteOfHead.get(head);
    if (note === undefined) continue;
    const { x, y, width, height } = element.getBBox();
    const box = { x: x * scale.zoom, y: y * scale.zoom, width: width * scale.zoom, height: height * scale.zoom };
    heads.push({ head, note, kind, elements: [element], box, system: systemOfMeasure.get(measure) ?? 0 });
  }
  return heads;
}

function drawnSystem(system: MusicSystem, unit: number, scale: StripScale): DrawnSystem {
  const lines = system.StaffLines;
  const staves = lines.map((line) => drawnStaff(line, unit));
  const measures = (lines[0]?.Measures ?? []).filter((measure) => !measure.IsExtraGraphicalMeasure);
  const bars = measures.flatMap((measure) => {
    const bar = barOfMeasure(measure, scale);
    return bar === undefined ? [] : [drawnBar(measure, bar, unit)];
  });
  const ys = staves.flatMap((staff) => staff.lineYs);
  return {
    left: bars[0]?.left ?? 0,
    right: bars.at(-1)?.right ?? 0,
    top: Math.min(...ys),
    bottom: Math.max(...ys),
    staves,
    bars,
    times: timePoints(lines, bars, unit, scale),
  };
}

const barOfMeasure = (measure: GraphicalMeasure, scale: StripScale): Bar | undefined =>
  scale.bars[measure.parentSourceMeasure.measureListIndex];

function drawnStaff(line: StaffLine, unit: number): DrawnStaff {
  const top = line.PositionAndShape.AbsolutePosition.y * unit;
  const kind = line.ParentStaff.isTab ? 'tablature' : 'notation';
  const count = line.ParentStaff.StafflineCount;
  const height = line.StaffHeight * unit;
  const lineYs =
    count === 1
      ? [top + height / 2]
      : Array.from({ length: count }, (_, index) => top + (index * height) / (count - 1));
  return { kind, lineYs, part: line.ParentStaff.ParentInstrument.IdString };
}

function drawnBar(measure: GraphicalMeasure, bar: Bar, unit: number): DrawnBar {
  const left = measure.PositionAndShape.AbsolutePosition.x * unit;
  return {
    bar: bar.id,
    left,
    right: left + measure.PositionAndShape.Size.width * unit,
    musicLeft: left + measure.beginInstructionsWidth * unit,
  };
}

function timePoints(
  lines: readonly StaffLine[],
  bars: readonly DrawnBar[],
  unit: number,
  scale: StripScale,
): readonly TimePoint[] {
  const leftmost = new Map<number, number>();
  for (const line of lines) {
    for (const measure of line.Measures) {
      const bar = measure.IsExtraGraphicalMeasure ? undefined : barOfMeasure(measure, scale);
      if (bar === undefined) continue;
      for (const entry of measure.staffEntries) {
        const quarters = entry.relInMeasureTimestamp.RealValue * 4;
        const ticks = bar.onsetTicks + Math.round(quarters * scale.ticksPerQuarter);
        const x = entry.PositionAndShape.AbsolutePosition.x * unit;
        leftmost.set(ticks, Math.min(leftmost.get(ticks) ?? Infinity, x));
      }
    }
  }
  return withBarEdges(leftmost, bars, scale);
}

function withBarEdges(
  leftmost: ReadonlyMap<number, number>,
  bars: readonly DrawnBar[],
  scale: StripScale,
): readonly TimePoint[] {
  const times = new Map(leftmost);
  for (const drawn of bars) {
    const bar = scale.bars.find((candidate) => candidate.id === drawn.bar);
    if (bar === undefined) continue;
    if (!times.has(bar.onsetTicks)) times.set(bar.onsetTicks, drawn.musicLeft);
  }
  const last = scale.bars.find((candidate) => candidate.id === bars.at(-1)?.bar);
  if (last !== undefined) times.set(last.onsetTicks + last.lengthTicks, bars.at(-1)?.right ?? 0);
  return [...times].map(([ticks, x]) => ({ ticks, x })).sort((a, b) => a.ticks - b.ticks);
}
