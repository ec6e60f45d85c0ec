import type { Page } from 'playwright-core';

/** Counts what React commits to a page, by the hook that it offers to tools. Call it before the page is opened. */
export async function countCommits(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const counted = { count: 0 };
    const nothing = (): void => undefined;
    Object.assign(window, {
      reactCommits: counted,
      __REACT_DEVTOOLS_GLOBAL_HOOK__: {
        supportsFiber: true,
        isDisabled: false,
        renderers: new Map(),
        checkDCE: nothing,
        inject: () => 1,
        onCommitFiberRoot: () => (counted.count += 1),
        onCommitFiberUnmount: nothing,
        onPostCommitFiberRoot: nothing,
      },
    });
  });
}

/** How much React has committed to a page so far. */
export const commitsSoFar = (page: Page): Promise<number> =>
  page.evaluate(() => (window as unknown as { reactCommits: { count: number } }).reactCommits.count);

/**
 * Whether the line of the playing place moves so many times in a row, frame after frame, while React commits nothing. A
 * commit for another reason begins the row anew; after so many rows it is given up.
 */
export const placeMovesAlone = (page: Page, moves: number, rows: number): Promise<boolean> =>
  page.evaluate(
    ([wanted, most]) =>
      new Promise<boolean>((answer) => {
        const counted = (window as unknown as { reactCommits: { count: number } }).reactCommits;
        let [seen, begun, known, where] = [0, 0, -1, ''];
        const look = (): void => {
          const place = document.querySelector<HTMLElement>('[data-place]');
          const here = place?.getAttribute('transform') ?? place?.style.transform ?? '';
          if (counted.count !== known) {
            [seen, begun, known] = [0, begun + 1, counted.count];
          } else if (here !== where) seen += 1;
          where = here;
          if (seen >= wanted || begun > most) answer(seen >= wanted);
          else requestAnimationFrame(look);
        };
        look();
      }),
    [moves, rows] as const,
  );
