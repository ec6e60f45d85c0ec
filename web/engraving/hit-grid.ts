import type { Box } from './geometry.ts';

const cellSize = 40;

/** Finds what lies at or near a point without asking the browser to lay anything out. */
export class HitGrid<Item extends { readonly box: Box }> {
  readonly #cells = new Map<number, Item[]>();
  readonly #reach: number;

  /** `reach` is how far, in pixels, a point may miss a box and still hit it. */
  constructor(items: readonly Item[], reach = 8) {
    this.#reach = reach;
    for (const item of items) {
      for (const key of cellsOf(grown(item.box, reach))) {
        const cell = this.#cells.get(key);
        if (cell === undefined) this.#cells.set(key, [item]);
        else cell.push(item);
      }
    }
  }

  /** The item whose box is nearest to the point, within reach. */
  at(x: number, y: number): Item | null {
    let best: Item | null = null;
    let bestDistance = this.#reach;
    for (const item of this.#cells.get(keyOf(Math.floor(x / cellSize), Math.floor(y / cellSize))) ?? []) {
      const distance = distanceTo(item.box, x, y);
      if (distance < bestDistance || (distance === bestDistance && best === null)) {
        best = item;
        bestDistance = distance;
      }
    }
    return best;
  }

  /** Every item that a straight stroke of the pointer passes, each once, in the order of the stroke. */
  along(fromX: number, fromY: number, toX: number, toY: number): readonly Item[] {
    const steps = Math.max(1, Math.ceil(Math.max(Math.abs(toX - fromX), Math.abs(toY - fromY)) / 4));
    const found = new Set<Item>();
    for (let step = 0; step <= steps; step += 1) {
      const part = step / steps;
      const item = this.at(fromX + (toX - fromX) * part, fromY + (toY - fromY) * part);
      if (item !== null) found.add(item);
    }
    return [...found];
  }

  /** Every item whose box touches the given one. */
  within(box: Box): readonly Item[] {
    const found = new Set<Item>();
    for (const key of cellsOf(box)) {
      for (const item of this.#cells.get(key) ?? []) if (touches(item.box, box)) found.add(item);
    }
    return [...found];
  }
}

const keyOf = (column: number, row: number): number => row * 4096 + column;

const grown = (box: Box, by: number): Box => ({
  x: box.x - by,
  y: box.y - by,
  width: box.width + 2 * by,
  height: box.height + 2 * by,
});

function* cellsOf(box: Box): Generator<number> {
  const lastRow = Math.floor((box.y + box.height) / cellSize);
  const lastColumn = Math.floor((box.x + box.width) / cellSize);
  for (let row = Math.floor(box.y / cellSize); row <= lastRow; row += 1) {
    for (let column = Math.floor(box.x / cellSize); column <= lastColumn; column += 1) yield keyOf(column, row);
  }
}

function distanceTo(box: Box, x: number, y: number): number {
  const beside = Math.max(box.x - x, 0, x - box.x - box.width);
  const beyond = Math.max(box.y - y, 0, y - box.y - box.height);
  return Math.sqrt(beside * beside + beyond * beyond);
}

const touches = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
