import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { build } from 'vite';

const types: Readonly<Record<string, string>> = { '.html': 'text/html', '.js': 'text/javascript' };

/** A page of the tests, built and served. */
export interface BuiltPage {
  readonly address: string;
  readonly close: () => Promise<void>;
}

/** Builds a page as the product is built, and serves it so: nothing but its own files, no inline script. */
export async function servePage(root: string): Promise<BuiltPage> {
  const folder = await mkdtemp(join(tmpdir(), 'heddle-page-'));
  await build({
    root,
    configFile: false,
    logLevel: 'error',
    build: { outDir: folder, emptyOutDir: true },
    worker: { rolldownOptions: { treeshake: { moduleSideEffects: false } } },
  });
  const server = createServer((request, response) => {
    const path = request.url === '/' ? '/index.html' : (request.url ?? '');
    readFile(join(folder, path)).then(
      (bytes) =>
        response
          .writeHead(200, {
            'content-type': types[extname(path)] ?? 'application/octet-stream',
            'content-security-policy': "default-src 'self'",
          })
          .end(bytes),
      () => response.writeHead(404).end(),
    );
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    close: async () => {
      await new Promise((closed) => server.close(closed));
      await rm(folder, { recursive: true });
    },
  };
}
