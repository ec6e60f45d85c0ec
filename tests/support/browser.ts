import { chromium, type Browser, type BrowserContext, type Page } from 'playwright-core';

const flags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--autoplay-policy=no-user-gesture-required',
];

/** Starts the Chromium that `npm test` found. */
export const launchBrowser = (more: readonly string[] = []): Promise<Browser> =>
  chromium.launch({ executablePath: process.env['HEDDLE_CHROMIUM'] ?? '/usr/bin/chromium', args: [...flags, ...more] });

/** The sizes at which every screen is looked at. **Units** CSS pixels. */
export const sizes = {
  desktop: { width: 1440, height: 900 },
  phone: { width: 390, height: 844 },
} as const;

/** A page of its own session that fails the test on any uncaught error of the page. */
export async function openPage(
  browser: Browser,
  size: keyof typeof sizes = 'desktop',
): Promise<{ context: BrowserContext; page: Page; errors: string[] }> {
  const context = await browser.newContext({ viewport: sizes[size], reducedMotion: 'reduce' });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.stack ?? error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  return { context, page, errors };
}
