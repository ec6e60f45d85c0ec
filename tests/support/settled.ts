import type { Page, Request } from 'playwright-core';

/** Watches what a page fetches, from before it is opened. What it gives resolves once nothing is fetched, laid out or waiting to run. */
export function settling(page: Page): () => Promise<void> {
  const inFlight = new Set<Request>();
  let changed = (): void => {};
  page.on('request', (request) => inFlight.add(request));
  const onEnd = (request: Request): void => {
    inFlight.delete(request);
    changed();
  };
  page.on('requestfinished', onEnd).on('requestfailed', onEnd);
  const untilFetched = async (): Promise<void> => {
    while (inFlight.size > 0) await new Promise<void>((resolve) => (changed = resolve));
  };
  return async () => {
    do {
      await untilFetched();
      await page.evaluate(untilIdle);
    } while (inFlight.size > 0);
  };
}

/** Two frames are drawn and the page has time to spare; runs in the page. */
async function untilIdle(): Promise<void> {
  await document.fonts.ready;
  for (let frame = 0; frame < 2; frame += 1) await new Promise(requestAnimationFrame);
  await new Promise((resolve) => requestIdleCallback(resolve, { timeout: 2000 }));
}
