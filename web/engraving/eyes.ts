import type { Line, LineId } from '../../music/index.ts';
import { dyePaint } from '../ui/dye.ts';
import type { DrawnSystem } from './geometry.ts';
import styles from './sheet.module.css';
import { svgElement } from './svg.ts';
import type { ThreadPoint } from './thread-curve.ts';

/** How eyes stand at the edge of a system. **Units** pixels. */
export interface EyeMeasures {
  readonly centreX: number;
  readonly height: number;
  readonly spacing: number;
}

/** Where each line's eye stands beside a system: in the lines' order around its first staff, or each at its own staff. */
export function eyePlaces(
  system: DrawnSystem,
  lines: readonly Line[],
  measures: EyeMeasures,
  staffOf: (line: LineId) => string | null,
): ReadonlyMap<LineId, ThreadPoint> {
  const own = lines.filter((line) => system.staves.some((staff) => staff.part === staffOf(line.id)));
  if (own.length > 0) return new Map(own.map((line) => [line.id, atOwnStaff(system, staffOf(line.id), measures)]));
  const first = system.staves[0]?.lineYs ?? [system.top, system.top + 40];
  const middle = ((first[0] ?? 0) + (first.at(-1) ?? 0)) / 2;
  const top = Math.max(measures.height / 2 + 3, middle - ((lines.length - 1) * measures.spacing) / 2);
  return new Map(lines.map((line, index) => [line.id, { x: measures.centreX, y: top + index * measures.spacing }]));
}

function atOwnStaff(system: DrawnSystem, part: string | null, measures: EyeMeasures): ThreadPoint {
  const ys = system.staves.find((staff) => staff.part === part)?.lineYs ?? [system.top];
  return { x: measures.centreX, y: ((ys[0] ?? 0) + (ys.at(-1) ?? 0)) / 2 };
}

/** A line's eye as a button; only the first system's can be reached by the tab key, all by pointer. */
export function eyeButton(
  line: Line,
  place: ThreadPoint,
  measures: EyeMeasures,
  inset: number,
  isReachable: boolean,
): HTMLButtonElement {
  const button = document.createElement('button');
  const width = (measures.height * 30) / 36;
  button.type = 'button';
  button.className = styles['eye'] ?? '';
  button.dataset['line'] = line.id;
  button.tabIndex = isReachable ? 0 : -1;
  button.setAttribute('aria-label', `${line.name}: open its sheet`);
  button.style.width = `${width}px`;
  button.style.height = `${measures.height}px`;
  button.style.left = `${inset + place.x - width / 2}px`;
  button.style.top = `${place.y - measures.height / 2}px`;
  const ellipse = svgElement('ellipse', { rx: 12, ry: 15, 'stroke-width': 3.2 });
  ellipse.style.stroke = dyePaint[line.dye].colour;
  const text = svgElement('text', { y: 5.4, 'text-anchor': 'middle' }, line.letter);
  button.append(
    svgElement(
      'svg',
      { width, height: measures.height, viewBox: '-15 -18 30 36', 'aria-hidden': 'true' },
      ellipse,
      text,
    ),
  );
  return button;
}
