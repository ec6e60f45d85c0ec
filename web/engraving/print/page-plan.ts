/** A sheet of paper. **Units** points, 72 to an inch. */
export interface Paper {
  readonly width: number;
  readonly height: number;
}

const pointsPerMillimetre = 72 / 25.4;

/** Papers that one prints on. **Source** ISO 216; US Letter by common practice, no source. */
export const papers = {
  a4: { width: 210 * pointsPerMillimetre, height: 297 * pointsPerMillimetre },
  letter: { width: 612, height: 792 },
} as const satisfies Readonly<Record<string, Paper>>;

/** The white edge around everything printed. **Units** points. */
export const pageMargin = 15 * pointsPerMillimetre;
/** What the page number takes at the foot, within the margin's own room above it. **Units** points. */
const footRoom = 7 * pointsPerMillimetre;
/** How high a staff is printed: 7 mm for one player, smaller the more staves are read together. Common practice, no source. **Units** millimetres. */
const staffHeight = (staffCount: number): number => (staffCount <= 2 ? 7 : staffCount <= 4 ? 6 : 5.3);

/** The scale that systems of so many staves are printed at, whose staves are 40 pixels high. */
export const pointsPerPixelFor = (staffCount: number): number => (staffHeight(staffCount) / 40) * pointsPerMillimetre;

/** The width that systems are set in for a paper. **Units** pixels. */
export const systemWidth = (paper: Paper, pointsPerPixel: number): number =>
  (paper.width - 2 * pageMargin) / pointsPerPixel;

/** Where a system stands on its page. **Units** points. */
export interface PlacedSystem {
  readonly system: number;
  readonly top: number;
}

/** The pages of a piece, and the scale that its systems are printed at. */
export interface PagePlan {
  readonly pages: readonly (readonly PlacedSystem[])[];
  readonly pointsPerPixel: number;
}

/** The widest gap that still looks like one, as a share of a system's height. */
const widestGap = 0.35;

/** Spreads what is left of a page that takes no further system: between its systems, so that it is full, and where they would stand too far apart in even shares below them too. */
function spread(page: readonly PlacedSystem[], end: number, bottom: number, isLast: boolean): readonly PlacedSystem[] {
  const gaps = page.length - 1;
  const left = bottom - end;
  const height = (end - (page[0]?.top ?? end)) / page.length;
  const shares = left > widestGap * height * gaps ? gaps + 1 : gaps;
  const gap = isLast || gaps < 1 ? 0 : left / shares;
  return page.map(({ system, top }, index) => ({ system, top: top + index * gap }));
}

/** Breaks systems of these heights into pages; what is higher than a page makes everything smaller until it fits. **Units** heights in pixels, `headHeight` in points. */
export function planPages(
  heights: readonly number[],
  paper: Paper,
  headHeight: number,
  pointsPerPixel: number,
): PagePlan {
  const bottom = paper.height - pageMargin - footRoom;
  const room = bottom - pageMargin;
  const scale = Math.min(
    pointsPerPixel,
    (room - headHeight) / Math.max(1, heights[0] ?? 1),
    room / Math.max(1, ...heights),
  );
  const pages: PlacedSystem[][] = [];
  const ends: number[] = [];
  let page: PlacedSystem[] = [];
  let top = pageMargin + headHeight;
  heights.forEach((height, system) => {
    const high = height * scale;
    if (top + high > bottom + 0.01 && page.length > 0) {
      pages.push(page);
      ends.push(top);
      page = [];
      top = pageMargin;
    }
    page.push({ system, top });
    top += high;
  });
  if (page.length > 0) {
    pages.push(page);
    ends.push(top);
  }
  return {
    pages: pages.map((placed, index) => spread(placed, ends[index] ?? bottom, bottom, index === pages.length - 1)),
    pointsPerPixel: scale,
  };
}
