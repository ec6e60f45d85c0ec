import type { Line, LineId } from '../../music/index.ts';
import { dyePaint } from '../ui/dye.ts';
import { heardAs, type EyeTone } from '../ui/eye-tone.ts';
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

/** Everything that an eye is drawn from. */
interface EyeLook {
  readonly line: Line;
  readonly place: ThreadPoint;
  readonly tone: EyeTone;
  readonly isDim: boolean;
}

/** How the eyes of a strip are to stand and look. */
export interface EyesLook {
  /** For each system where its lines' eyes stand. */
  readonly places: readonly ReadonlyMap<LineId, ThreadPoint>[];
  readonly lines: readonly Line[];
  readonly lifted: ReadonlySet<LineId>;
  readonly tones: ReadonlyMap<LineId, EyeTone>;
}

/** The eyes of a strip as buttons at its edge. A button stays for as long as its line does, so that what hangs from it keeps its place. */
export class EdgeEyes {
  readonly #buttons = new Map<string, HTMLButtonElement>();
  readonly #host: HTMLElement;
  readonly #measures: EyeMeasures;
  readonly #inset: number;
  readonly #isReachable: boolean;

  /** `isReachable`: whether the tab key comes to the first system's; the pointer comes to all. */
  constructor(host: HTMLElement, measures: EyeMeasures, inset: number, isReachable: boolean) {
    this.#host = host;
    this.#measures = measures;
    this.#inset = inset;
    this.#isReachable = isReachable;
  }

  show({ places, lines, lifted, tones }: EyesLook): void {
    const gone = new Set(this.#buttons.keys());
    places.forEach((inSystem, system) => {
      for (const line of lines) {
        const place = inSystem.get(line.id);
        if (place === undefined) continue;
        const key = `${system} ${line.id}`;
        gone.delete(key);
        const isDim = lifted.size > 0 && !lifted.has(line.id);
        this.#draw(this.#buttonOf(key, line, system), {
          line,
          place,
          tone: tones.get(line.id) ?? 'plain',
          isDim,
        });
      }
    });
    for (const key of gone) this.#remove(key);
  }

  clear(): void {
    for (const key of [...this.#buttons.keys()]) this.#remove(key);
  }

  #remove(key: string): void {
    this.#buttons.get(key)?.remove();
    this.#buttons.delete(key);
  }

  #buttonOf(key: string, line: Line, system: number): HTMLButtonElement {
    const known = this.#buttons.get(key);
    if (known !== undefined) return known;
    const button = emptyEye(this.#measures.height);
    button.dataset['line'] = line.id;
    button.tabIndex = this.#isReachable && system === 0 ? 0 : -1;
    this.#buttons.set(key, button);
    this.#host.append(button);
    return button;
  }

  #draw(button: HTMLButtonElement, { line, place, tone, isDim }: EyeLook): void {
    const { height } = this.#measures;
    button.setAttribute('aria-label', `${line.name}: open its sheet`);
    button.setAttribute('aria-description', heardAs[tone]);
    button.dataset['tone'] = tone;
    button.toggleAttribute('data-dim', isDim);
    button.style.left = `${this.#inset + place.x - widthOf(height) / 2}px`;
    button.style.top = `${place.y - height / 2}px`;
    button.style.setProperty('--dye', dyePaint[line.dye].colour);
    const letter = button.querySelector('text');
    if (letter !== null && letter.textContent !== line.letter) letter.textContent = line.letter;
  }
}

const widthOf = (height: number): number => (height * 30) / 36;

/** An eye without a letter, and the stroke through it that is seen while its line is silent. */
function emptyEye(height: number): HTMLButtonElement {
  const button = document.createElement('button');
  const width = widthOf(height);
  button.type = 'button';
  button.className = styles['eye'] ?? '';
  button.style.width = `${width}px`;
  button.style.height = `${height}px`;
  button.append(
    svgElement(
      'svg',
      { width, height, viewBox: '-15 -18 30 36', 'aria-hidden': 'true' },
      svgElement('ellipse', { rx: 12, ry: 15 }),
      svgElement('text', { y: 5.4, 'text-anchor': 'middle' }),
      svgElement('path', { d: 'M-10.5 13.5L10.5 -13.5' }),
    ),
  );
  return button;
}
