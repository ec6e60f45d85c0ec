import type { Line, LineId, NoteId } from '../../music/index.ts';
import { dyePaint } from '../ui/dye.ts';
import { middleOf, type DrawnHead, type DrawnStrip, type DrawnSystem } from './geometry.ts';
import { svgElement } from './svg.ts';
import { liftOffStaffLines, threadPath, type ThreadPoint } from './thread-curve.ts';

/** What threads are drawn from. */
export interface ThreadInput {
  readonly strip: DrawnStrip;
  readonly lines: readonly Line[];
  readonly linesOf: (note: NoteId) => readonly LineId[];
  readonly lifted: ReadonlySet<LineId>;
  /** Where each line's eye stands at the edge of a system. */
  readonly eyePlace: (system: number, line: LineId) => ThreadPoint;
  /** Whether the line has notes after this strip. */
  readonly goesOn: (line: LineId) => boolean;
  readonly thickness: number;
}

/** The threads of a strip: one path for each line and system that it has heads in, each with a halo, so that they cross over and under. */
export function drawThreads(input: ThreadInput): readonly SVGElement[] {
  const order = [...input.lines].reverse();
  return input.strip.systems.flatMap((system, index) =>
    order.flatMap((line) => {
      const points = pointsOfLine(input, system, index, line);
      return points.length === 0 ? [] : threadOf(input, system, index, line, points);
    }),
  );
}

function pointsOfLine(input: ThreadInput, system: DrawnSystem, index: number, line: Line): readonly ThreadPoint[] {
  const hasNotation = system.staves.some((staff) => staff.kind === 'notation');
  const wanted = hasNotation ? 'head' : 'digit';
  const heads = input.strip.heads.filter(
    (head) => head.system === index && head.kind === wanted && input.linesOf(head.note).includes(line.id),
  );
  return oneForEachColumn(heads, line);
}

function oneForEachColumn(heads: readonly DrawnHead[], line: Line): readonly ThreadPoint[] {
  const points = heads.map((head) => middleOf(head.box)).sort((a, b) => a.x - b.x);
  const columns: ThreadPoint[] = [];
  for (const point of points) {
    const last = columns.at(-1);
    if (last === undefined || point.x - last.x > 9) columns.push(point);
    else if (line.role === 'bass' ? point.y > last.y : point.y < last.y) columns[columns.length - 1] = point;
  }
  return columns;
}

function threadOf(
  input: ThreadInput,
  system: DrawnSystem,
  index: number,
  line: Line,
  points: readonly ThreadPoint[],
): readonly SVGElement[] {
  const eye = input.eyePlace(index, line.id);
  const last = points.at(-1) as ThreadPoint;
  const isLastSystem = index === input.strip.systems.length - 1;
  const laterHere =
    !isLastSystem &&
    input.strip.heads.some((head) => head.system > index && input.linesOf(head.note).includes(line.id));
  const end = { x: laterHere || input.goesOn(line.id) ? system.right : Math.min(system.right, last.x + 22), y: last.y };
  const lineYs = system.staves.flatMap((staff) => staff.lineYs);
  const direction = input.lines.indexOf(line) < input.lines.length / 2 ? 'up' : 'down';
  const through = liftOffStaffLines([...points, end], lineYs, direction);
  const path = threadPath([eye, ...approach(eye, points[0] as ThreadPoint), ...through]);
  const isDim = input.lifted.size > 0 && !input.lifted.has(line.id);
  return isDim
    ? [strand(line, path, input.thickness, 0.16)]
    : [halo(path, input.thickness), strand(line, path, input.thickness, 1)];
}

/** Where an eye and the first head lie far apart, the thread reaches the head's height early and runs on flat. */
function approach(eye: ThreadPoint, first: ThreadPoint): readonly ThreadPoint[] {
  const room = first.x - eye.x;
  return room > 150 ? [{ x: first.x - 46, y: first.y + (eye.y < first.y ? -3 : 3) }] : [];
}

function halo(path: string, thickness: number): SVGElement {
  const element = svgElement('path', { d: path, fill: 'none', 'stroke-width': thickness + 3.4 });
  element.style.stroke = 'var(--paper)';
  return element;
}

function strand(line: Line, path: string, thickness: number, opacity: number): SVGElement {
  const isRound = line.dye === 'walnut';
  const element = svgElement('path', {
    d: path,
    fill: 'none',
    'stroke-width': isRound ? thickness + 0.6 : thickness,
    'stroke-linecap': isRound ? 'round' : 'butt',
    opacity,
  });
  element.style.stroke = dyePaint[line.dye].colour;
  element.style.strokeDasharray = dyePaint[line.dye].stitch;
  return element;
}
