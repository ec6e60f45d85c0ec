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

  it('fills a page that takes no further system, and leaves the last one as it ends', () => {
    const heights = Array.from({ length: 7 }, () => 340);
    const { pages, pointsPerPixel } = planFor(heights);
    const endOf = (page: (typeof pages)[number]): number => page.at(-1)!.top + 340 * pointsPerPixel;
    const foot = (7 * 72) / 25.4;
    expect(pages.length).toBeGreaterThan(1);
    for (const page of pages.slice(0, -1)) expect(endOf(page)).toBeCloseTo(papers.a4.height - pageMargin - foot, 5);
    const last = pages.at(-1)!;
    if (last.length > 1) expect(last[1]!.top - last[0]!.top).toBeCloseTo(340 * pointsPerPixel, 5);
  });

  it('leaves as much below two high systems as between them', () => {
    const high = 560;
    const { pages, pointsPerPixel } = planFor([high, high, high, high, high]);
    const [, second] = pages;
    expect(second).toHaveLength(2);
    const between = second![1]!.top - second![0]!.top - high * pointsPerPixel;
    const below = papers.a4.height - pageMargin - (7 * 72) / 25.4 - second![1]!.top - high * pointsPerPixel;
    expect(between).toBeGreaterThan(0);
    expect(below).toBeCloseTo(between, 5);
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
