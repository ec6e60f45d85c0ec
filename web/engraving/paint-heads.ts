import type { Dye } from '../../music/index.ts';
import { dyePaint } from '../ui/dye.ts';
import { middleOf, type DrawnHead } from './geometry.ts';
import type { Appearance } from './look.ts';
import { svgElement } from './svg.ts';

/** The id of the paint that shows two dyes at once, defined by `twoDyePaints`. */
const twoDyeId = (first: Dye, second: Dye, tone: 'colour' | 'text'): string => `heddle-${tone}-${first}-${second}`;

/** Half-and-half paints for notes on two lines; one hidden svg for a whole page of sheets. */
export function twoDyePaints(): SVGSVGElement {
  const dyes = Object.keys(dyePaint) as Dye[];
  const paints = dyes.flatMap((first) =>
    dyes
      .filter((second) => second !== first)
      .flatMap((second) => [halves(first, second, 'colour'), halves(first, second, 'text')]),
  );
  const svg = svgElement('svg', { width: 0, height: 0, 'aria-hidden': 'true' }, svgElement('defs', {}, ...paints));
  svg.style.position = 'absolute';
  return svg;
}

function halves(first: Dye, second: Dye, tone: 'colour' | 'text'): SVGElement {
  const stop = (offset: string, dye: Dye): SVGElement => {
    const element = svgElement('stop', { offset });
    element.style.stopColor = dyePaint[dye][tone];
    return element;
  };
  return svgElement(
    'linearGradient',
    { id: twoDyeId(first, second, tone), x1: 0, y1: 0, x2: 1, y2: 0 },
    stop('50%', first),
    stop('50%', second),
  );
}

/** What a head is filled with under an appearance. */
function fillOf(appearance: Appearance, kind: DrawnHead['kind']): string {
  const [first, second] = appearance.dyes;
  const tone = kind === 'digit' ? 'text' : 'colour';
  if (first === undefined) return 'var(--ink)';
  if (second === undefined || second === first) return dyePaint[first][tone];
  return `url(#${twoDyeId(first, second, tone)})`;
}

/** Gives a head its colour by attributes alone. */
export function paintHead(head: DrawnHead, appearance: Appearance): void {
  const fill = fillOf(appearance, head.kind);
  for (const element of head.elements) {
    element.setAttribute('opacity', appearance.isDim ? '0.26' : '1');
    const shapes = element.tagName === 'g' ? element.querySelectorAll('path, text') : [element];
    for (const shape of shapes) {
      shape.setAttribute('fill', fill);
      if (shape.tagName === 'path') shape.setAttribute('stroke', fill.startsWith('url') ? 'none' : fill);
    }
  }
}

const stitchWidth = 13;

/** The stitches that lie under a head or digit: one for each of its lines. */
export function stitchesOf(head: DrawnHead, appearance: Appearance): readonly SVGElement[] {
  const { x } = middleOf(head.box);
  const top = head.box.y + head.box.height + (head.kind === 'digit' ? 3.2 : 3.4);
  return appearance.dyes.map((dye, index) => {
    const y = top + index * 3.4;
    const line = svgElement('path', {
      d: `M${x - stitchWidth / 2} ${y}h${stitchWidth}`,
      pathLength: dye === 'walnut' ? 24 : 30,
      'stroke-width': dye === 'walnut' ? 2.6 : 2,
      'stroke-linecap': dye === 'walnut' ? 'round' : 'butt',
      fill: 'none',
    });
    line.style.stroke = dyePaint[dye].colour;
    line.style.strokeDasharray = dyePaint[dye].stitch;
    return line;
  });
}
