import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { labelWidth, placeLabels, type Box } from './label-places.ts';

const box = (x: number, y = 0, width = 10, height = 10): Box => ({ x, y, width, height });
const wish = (key: string, rank: number, ...boxes: readonly Box[]) => ({ key, rank, boxes });

describe('labels', () => {
  it('make way for those of lower rank', () => {
    const placed = placeLabels([wish('offbeat', 2, box(5)), wish('beat', 1, box(0)), wish('next', 1, box(10))]);
    expect([...placed.keys()].sort()).toEqual(['beat', 'next']);
  });

  it('take the next of their places where the first is taken', () => {
    const placed = placeLabels([wish('a', 1, box(0)), wish('b', 2, box(4), box(4, 20))]);
    expect(placed.get('b')).toEqual(box(4, 20));
  });

  it('stay clear of what belongs to others, not of their own', () => {
    const placed = placeLabels(
      [wish('a', 1, box(0)), wish('b', 2, box(30))],
      [
        { ...box(2), of: 'a' },
        { ...box(30), of: 'a' },
      ],
    );
    expect([...placed.keys()]).toEqual(['a']);
  });

  it('never touch each other', () => {
    const anyBox = fc.record({
      x: fc.integer({ min: 0, max: 200 }),
      y: fc.integer({ min: 0, max: 60 }),
      width: fc.integer({ min: 4, max: 40 }),
      height: fc.integer({ min: 4, max: 20 }),
    });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.array(anyBox, { minLength: 1, maxLength: 3 }), fc.nat(5)), { maxLength: 30 }),
        (list) => {
          const placed = placeLabels(list.map(([boxes, rank], key) => ({ key, boxes, rank })));
          const standing = [...placed.values()];
          const apart = standing.every((one, index) =>
            standing
              .slice(index + 1)
              .every(
                (other) =>
                  Math.abs(one.x - other.x) * 2 >= one.width + other.width ||
                  Math.abs(one.y - other.y) * 2 >= one.height + other.height,
              ),
          );
          return apart && (list.length === 0 || placed.size > 0);
        },
      ),
      { seed: 5, numRuns: 200 },
    );
  });

  it('are reckoned wider the more and the wider their letters', () => {
    expect(labelWidth('sol')).toBeGreaterThan(labelWidth('la'));
    expect(labelWidth('mum')).toBeGreaterThan(labelWidth('ill'));
  });
});
