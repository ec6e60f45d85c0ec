import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Box } from './geometry.ts';
import { HitGrid } from './hit-grid.ts';

const boxed = (name: string, box: Box) => ({ name, box });
const head = (name: string, x: number, y: number) => boxed(name, { x, y, width: 12, height: 10 });

test('a point within a box, or just beside it, hits it', () => {
  const grid = new HitGrid([head('low', 100, 100), head('high', 100, 60)]);
  expect(grid.at(106, 105)?.name).toBe('low');
  expect(grid.at(117, 104)?.name).toBe('low');
  expect(grid.at(130, 105)).toBeNull();
  expect(grid.at(106, 63)?.name).toBe('high');
});

test('between two heads the nearer one is hit', () => {
  const grid = new HitGrid([head('upper', 100, 100), head('under', 100, 115)]);
  expect(grid.at(106, 111)?.name).toBe('upper');
  expect(grid.at(106, 114)?.name).toBe('under');
});

test('a stroke finds every head on its way once, in order', () => {
  const grid = new HitGrid([head('a', 50, 100), head('b', 150, 110), head('c', 150, 300), head('d', 250, 120)]);
  expect(grid.along(40, 105, 280, 125).map((item) => item.name)).toEqual(['a', 'b', 'd']);
});

test('the grid finds what looking at every box finds', () => {
  const boxes = fc.array(
    fc.record({
      x: fc.integer({ min: 0, max: 900 }),
      y: fc.integer({ min: 0, max: 400 }),
      width: fc.integer({ min: 4, max: 30 }),
      height: fc.integer({ min: 4, max: 30 }),
    }),
    { maxLength: 40 },
  );
  fc.assert(
    fc.property(boxes, fc.integer({ min: 0, max: 900 }), fc.integer({ min: 0, max: 400 }), (list, x, y) => {
      const grid = new HitGrid(
        list.map((box, index) => boxed(String(index), box)),
        0.5,
      );
      const expected = list.some(
        (box) => x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height,
      );
      expect(grid.at(x, y) !== null).toBe(expected);
    }),
    { seed: 20_261_125 },
  );
});
