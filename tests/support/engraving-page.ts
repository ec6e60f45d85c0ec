import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { build, type Rolldown } from 'vite';

const address = 'http://engraving.test';

/** A page with nothing on it but one module of ours, built as the web is built, which puts `waitsFor` on the page. */
export async function openEngravingPage(browser: Browser, module: string, waitsFor: string): Promise<Page> {
  const files = await built(fileURLToPath(new URL(module, import.meta.url)));
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.route(`${address}/**`, (route) => {
    const name = new URL(route.request().url()).pathname.slice(1);
    const code = files.get(name);
    if (name === '')
      return route.fulfill({
        contentType: 'text/html',
        body: '<!doctype html><body><script type="module" src="/entry.js"></script></body>',
      });
    return code === undefined
      ? route.fulfill({ status: 404 })
      : route.fulfill({ contentType: 'text/javascript', body: code });
  });
  await page.goto(`${address}/`);
  await page.waitForFunction((name) => name in globalThis, waitsFor);
  return page;
}

async function built(entry: string): Promise<ReadonlyMap<string, string>> {
  const output = (await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      minify: false,
      rolldownOptions: { input: { entry }, output: { entryFileNames: 'entry.js' } },
    },
  })) as Rolldown.RolldownOutput;
  return new Map(output.output.flatMap((file) => (file.type === 'chunk' ? [[file.fileName, file.code] as const] : [])));
}
