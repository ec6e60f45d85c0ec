import type { Step } from './shape.ts';

interface Point {
  readonly x: number;
  readonly y: number;
}

interface Centre extends Point {
  readonly rx: number;
  readonly ry: number;
  readonly cos: number;
  readonly sin: number;
  readonly start: number;
  readonly sweep: number;
}

const angleOf = (x: number, y: number): number => Math.atan2(y, x);

/** The arc's centre, radii and angles. **Source** SVG 2, B.2.4 and B.2.5. */
function centreOf(
  from: Point,
  [rx0 = 0, ry0 = 0, tilt = 0, isLarge = 0, isSweep = 0, x = 0, y = 0]: readonly number[],
): Centre {
  const cos = Math.cos((tilt * Math.PI) / 180);
  const sin = Math.sin((tilt * Math.PI) / 180);
  const dx = (from.x - x) / 2;
  const dy = (from.y - y) / 2;
  const px = cos * dx + sin * dy;
  const py = cos * dy - sin * dx;
  const grow = Math.sqrt(Math.max(1, (px / rx0) ** 2 + (py / ry0) ** 2));
  const rx = Math.abs(rx0) * grow;
  const ry = Math.abs(ry0) * grow;
  const away = (rx * py) ** 2 + (ry * px) ** 2;
  const factor = Math.sqrt(Math.max(0, (rx * ry) ** 2 / away - 1)) * (isLarge === isSweep ? -1 : 1);
  const cx = (factor * rx * py) / ry;
  const cy = (-factor * ry * px) / rx;
  const start = angleOf((px - cx) / rx, (py - cy) / ry);
  const turn = angleOf((-px - cx) / rx, (-py - cy) / ry) - start;
  const sweep = isSweep === 0 ? (turn > 0 ? turn - 2 * Math.PI : turn) : turn < 0 ? turn + 2 * Math.PI : turn;
  return {
    x: cos * cx - sin * cy + (from.x + x) / 2,
    y: sin * cx + cos * cy + (from.y + y) / 2,
    rx,
    ry,
    cos,
    sin,
    start,
    sweep,
  };
}

/** An elliptical arc as curves of a quarter at most. `values` are those of SVG's A. */
export function arcSteps(from: Point, values: readonly number[]): readonly Step[] {
  const [rx = 0, ry = 0, , , , x = 0, y = 0] = values;
  if (rx === 0 || ry === 0) return [['L', x, y]];
  if (from.x === x && from.y === y) return [];
  const centre = centreOf(from, values);
  const count = Math.max(1, Math.ceil(Math.abs(centre.sweep) / (Math.PI / 2) - 1e-9));
  const part = centre.sweep / count;
  const handle = (4 / 3) * Math.tan(part / 4);
  const place = (u: number, v: number): readonly [number, number] => [
    centre.x + centre.cos * centre.rx * u - centre.sin * centre.ry * v,
    centre.y + centre.sin * centre.rx * u + centre.cos * centre.ry * v,
  ];
  return Array.from({ length: count }, (_, index): Step => {
    const a = centre.start + index * part;
    const b = a + part;
    const [ca, sa, cb, sb] = [Math.cos(a), Math.sin(a), Math.cos(b), Math.sin(b)];
    return [
      'C',
      ...place(ca - handle * sa, sa + handle * ca),
      ...place(cb + handle * sb, sb - handle * cb),
      ...place(cb, sb),
    ];
  });
}
