import type { Browser, Page } from 'playwright-core';
import type { SignedIn, TestApp } from './app.ts';
import { openPage, sizes } from './browser.ts';

/** A page at a splitting table, and what it complained of. */
export interface TablePage {
  readonly page: Page;
  readonly errors: readonly string[];
  readonly close: () => Promise<void>;
}

/** Opens a song's table as somebody who is signed in; the first heads are drawn by then. `prepare` comes before the page. */
export async function sitDownAt(
  browser: Browser,
  api: Pick<TestApp, 'origin'>,
  who: SignedIn,
  address: string,
  size: keyof typeof sizes = 'desktop',
  prepare: (page: Page) => Promise<void> = () => Promise.resolve(),
): Promise<TablePage> {
  const { context, page, errors } = await openPage(browser, size);
  await prepare(page);
  const [name = '', value = ''] = who.as.cookie.split(/=(.*)/s);
  await context.addCookies([{ name, value: value.split(';')[0] ?? '', url: api.origin }]);
  await page.goto(`${api.origin}/songs/${address}`);
  await page.waitForSelector('[role="application"] .vf-notehead');
  return { page, errors, close: () => context.close() };
}
