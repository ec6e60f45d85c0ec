import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { decided } from '../same/decided.ts';
import { launchBrowser } from '../support/browser.ts';
import { servePage, type BuiltPage } from '../support/built-page.ts';

let built: BuiltPage;
let browser: Browser;

beforeAll(async () => {
  built = await servePage(join(import.meta.dirname, 'split-page'));
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser.close();
  await built.close();
});

it('the split is the same in Chromium, to the bit', async () => {
  const page = await browser.newPage();
  await page.goto(built.address);
  const hashes = await page.evaluate(() => (window as unknown as { splitHashes: Promise<string[]> }).splitHashes);
  expect(hashes).toEqual(decided.splits);
});
