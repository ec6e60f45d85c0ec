import { describe, expect, it } from 'vitest';
import { pageMargin, papers, planPages, pointsPerPixelFor, systemWidth } from './page-plan.ts';

const headHeight = 60;
const scale = pointsPerPixelFor(1);
const planFor = (heights: readonly number[], paper: keyof typeof papers = 'a4') =>
  planPages(heights, papers[paper], headHeight, scale);

describe('systems on pages', () => {
  it.each([
    ['no system', []],
    ['one', [200]],
    ['many alike', Array.from({ length: 23 }, () => 240)],
    ['high and low ones', [300, 120, 500, 90, 700, 250, 250, 1100, 60]],
  ])('%s: each stands once, in order, within the margins and over no other', (_, heights) => {
    for (const paper of ['a4', 'letter'] as const) {
      const { pages, pointsPerPixel } = planFor(heights, paper);
      expect(pages.flat().map(({ system }) => system)).toEqual(heights.map((__, index) => index));
      for (const page of pages) {
        const ends = page.map(({ system, top }) => top + heights[system]! * pointsPerPixel);
        page.slice(1).forEach(({ top }, index) => expect(top).toBeGreaterThanOrEqual(ends[index]! - 0.01));
        expect(page[0]!.top).toBeGreaterThanOrEqual(pageMargin);
        expect(ends.at(-1)).toBeLessThanOrEqual(papers[paper].height - pageMargin);
      }
    }
  });

  it('leaves the head of the first page to the title', () => {
    expect(planFor([200, 200]).pages[0]![0]!.top).toBe(pageMargin + headHeight);
  });

  it('prints everything smaller where one system is higher than a page', () => {
    const { pages, pointsPerPixel } = planFor([200, 4000]);
    expect(pointsPerPixel).toBeLessThan(scale);
    expect(pages).toHaveLength(2);
  });

  it('sets more music into a line the more staves are read together', () => {
    const widths = [1, 4, 8].map((count) => systemWidth(papers.a4, pointsPerPixelFor(count)));
    expect(widths).toEqual([...widths].sort((one, other) => one - other));
    expect(new Set(widths).size).toBe(3);
  });
});
