import { extname } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { build, type Rolldown } from 'vite';

const address = 'http://engraving.test';

interface ServedFile {
  readonly contentType: string;
  readonly body: string | Buffer;
}

/** A page with nothing on it but one module of ours and its styles and fonts, built as the web is built, which puts `waitsFor` on the page. */
export async function openEngravingPage(browser: Browser, module: string, waitsFor: string): Promise<Page> {
  const files = await built(fileURLToPath(new URL(module, import.meta.url)));
  const styles = [...files.keys()].filter((name) => name.endsWith('.css'));
  const links = styles.map((name) => `<link rel="stylesheet" href="/${name}">`).join('');
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.route(`${address}/**`, (route) => {
    const name = new URL(route.request().url()).pathname.slice(1);
    const file = files.get(name);
    if (name === '')
      return route.fulfill({
        contentType: 'text/html',
        body: `<!doctype html>${links}<body><script type="module" src="/entry.js"></script></body>`,
      });
    return file === undefined ? route.fulfill({ status: 404 }) : route.fulfill(file);
  });
  await page.goto(`${address}/`);
  await page.waitForFunction((name) => name in globalThis, waitsFor);
  return page;
}

const contentTypes: Readonly<Record<string, string>> = {
  '.css': 'text/css',
  '.woff': 'font/woff',
  '.woff2': 'font/woff2',
};

function served(file: Rolldown.OutputChunk | Rolldown.OutputAsset): ServedFile {
  if (file.type === 'chunk') return { contentType: 'text/javascript', body: file.code };
  const contentType = contentTypes[extname(file.fileName)] ?? 'application/octet-stream';
  return { contentType, body: typeof file.source === 'string' ? file.source : Buffer.from(file.source) };
}

async function built(entry: string): Promise<ReadonlyMap<string, ServedFile>> {
  const output = (await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      minify: false,
      rolldownOptions: { input: { entry }, output: { entryFileNames: 'entry.js' } },
    },
  })) as Rolldown.RolldownOutput;
  return new Map(output.output.map((file) => [file.fileName, served(file)]));
}
