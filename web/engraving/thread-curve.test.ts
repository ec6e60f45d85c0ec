import { expect, test } from 'vitest';
import { liftOffStaffLines, threadPath, type ThreadPoint } from './thread-curve.ts';

const numbersOf = (path: string): readonly number[] => [...path.matchAll(/-?\d+(?:\.\d+)?/g)].map(Number);

/** Points along the curve that a path of cubics describes, by de Casteljau's construction. */
function sampled(path: string): readonly ThreadPoint[] {
  const [startX = 0, startY = 0, ...rest] = numbersOf(path);
  const samples: ThreadPoint[] = [{ x: startX, y: startY }];
  let from = { x: startX, y: startY };
  for (let index = 0; index < rest.length; index += 6) {
    const [ax = 0, ay = 0, bx = 0, by = 0, x = 0, y = 0] = rest.slice(index, index + 6);
    for (let step = 1; step <= 10; step += 1) {
      const t = step / 10;
      const u = 1 - t;
      const mix = (p0: number, p1: number, p2: number, p3: number) =>
        u ** 3 * p0 + 3 * u * u * t * p1 + 3 * u * t * t * p2 + t ** 3 * p3;
      samples.push({ x: mix(from.x, ax, bx, x), y: mix(from.y, ay, by, y) });
    }
    from = { x, y };
  }
  return samples;
}

const zigzag = [
  { x: 0, y: 50 },
  { x: 40, y: 20 },
  { x: 60, y: 60 },
  { x: 140, y: 60 },
  { x: 180, y: 10 },
];

test('a thread passes through every head', () => {
  const samples = sampled(threadPath(zigzag));
  for (const point of zigzag) {
    expect(samples.some((sample) => Math.abs(sample.x - point.x) < 0.11 && Math.abs(sample.y - point.y) < 0.11)).toBe(
      true,
    );
  }
});

test('a thread never swings beyond the two heads that it joins', () => {
  for (const sample of sampled(threadPath(zigzag))) {
    const after = zigzag.findIndex((point) => point.x >= sample.x - 0.06);
    const pair = zigzag.slice(Math.max(0, after - 1), after + 1).map((point) => point.y);
    expect(sample.y).toBeGreaterThanOrEqual(Math.min(...pair) - 0.11);
    expect(sample.y).toBeLessThanOrEqual(Math.max(...pair) + 0.11);
  }
});

test('two heads in one column count once, and a lone head makes no thread', () => {
  expect(
    threadPath([
      { x: 10, y: 10 },
      { x: 10.4, y: 30 },
    ]),
  ).toBe('');
  expect(threadPath([{ x: 10, y: 10 }])).toBe('');
});

test('a flat stretch on a staff line is raised by half a space, one between lines is not', () => {
  const lines = [10, 20, 30, 40, 50];
  const flat = (y: number) => [
    { x: 0, y },
    { x: 100, y },
  ];
  expect(liftOffStaffLines(flat(30), lines, 'up').map((point) => point.y)).toEqual([30, 25, 25, 30]);
  expect(liftOffStaffLines(flat(30), lines, 'down').map((point) => point.y)).toEqual([30, 35, 35, 30]);
  expect(liftOffStaffLines(flat(25), lines, 'up')).toEqual(flat(25));
  expect(
    liftOffStaffLines(
      [
        { x: 0, y: 30 },
        { x: 20, y: 30 },
      ],
      lines,
      'up',
    ),
  ).toHaveLength(2);
});
