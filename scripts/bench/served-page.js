import { createServer } from 'node:http';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { chromium } from 'playwright-core';
import { build } from 'vite';
import { root } from '../ensure.js';

const types = { '.html': 'text/html', '.js': 'text/javascript' };

async function served(page) {
  const folder = await mkdtemp(join(tmpdir(), 'heddle-bench-'));
  await build({
    root: join(root, 'tests', 'browser', page),
    configFile: false,
    logLevel: 'error',
    build: { outDir: folder, emptyOutDir: true },
    worker: {
      format: 'es',
      rolldownOptions: { treeshake: { moduleSideEffects: (id) => id.includes('node_modules') } },
    },
  });
  const server = createServer((request, response) => {
    const path = request.url === '/' ? '/index.html' : request.url;
    readFile(join(folder, path)).then(
      (bytes) => response.writeHead(200, { 'content-type': types[extname(path)] ?? 'text/plain' }).end(bytes),
      () => response.writeHead(404).end(),
    );
  });
  await new Promise((listening) => server.listen(0, '127.0.0.1', listening));
  const close = async () => {
    server.close();
    await rm(folder, { recursive: true });
  };
  return { address: `http://127.0.0.1:${server.address().port}/`, close };
}

/** Builds one of the tests' pages and opens it in a browser that needs no gesture to sound; `work` is given the empty page and its address. */
export async function onPage(name, work) {
  const { address, close } = await served(name);
  const browser = await chromium.launch({
    executablePath: process.env.HEDDLE_CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--autoplay-policy=no-user-gesture-required'],
  });
  try {
    return await work(await browser.newPage(), address);
  } finally {
    await browser.close();
    await close();
  }
}
