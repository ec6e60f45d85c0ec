import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { freePort } from './free-port.ts';

/** The built API in a process of its own. */
export interface ApiProcess {
  readonly origin: string;
  readonly child: ChildProcess;
  stop(): Promise<void>;
}

const secret = 'only-for-tests-0123456789-ABCDEFGHIJ-abcdefghij';

/** What a program of `dist/` printed, and how it ended. */
export async function runBuilt(
  program: string,
  words: readonly string[],
  environment: Readonly<Record<string, string>>,
): Promise<{ code: number; out: string; error: string }> {
  const child = spawn(process.execPath, [program, ...words], {
    env: { PATH: process.env['PATH'], HEDDLE_SECRET: secret, ...environment },
  });
  let out = '';
  let error = '';
  child.stdout.on('data', (chunk: Buffer) => (out += chunk.toString()));
  child.stderr.on('data', (chunk: Buffer) => (error += chunk.toString()));
  const [code] = (await once(child, 'close')) as [number];
  return { code, out, error };
}

/** Runs a few lines of JavaScript in a process of their own, as in production. */
export async function runScript(script: string, environment: Readonly<Record<string, string>>): Promise<void> {
  const env = { PATH: process.env['PATH'], NODE_ENV: 'production', ...environment };
  const child = spawn(process.execPath, ['--input-type=module', '-e', script], { env, stdio: 'ignore' });
  await once(child, 'exit');
}

/** Starts the built API; resolves once it says that it listens. */
export async function startBuilt(environment: Readonly<Record<string, string>>): Promise<ApiProcess> {
  const port = await freePort();
  const env = {
    PATH: process.env['PATH'],
    HEDDLE_SECRET: secret,
    HEDDLE_LOG_LEVEL: 'error',
    PORT: String(port),
    ...environment,
  };
  const child = spawn(process.execPath, ['dist/api/main.js'], { env, stdio: ['ignore', 'pipe', 'inherit'] });
  await new Promise<void>((resolve, reject) => {
    child.stdout.on('data', (chunk: Buffer) => {
      if (chunk.toString().includes('Heddle listens')) resolve();
    });
    child.once('exit', (code) => reject(new Error(`The API ended with ${code ?? 'a signal'} before it listened`)));
  });
  return {
    origin: `http://127.0.0.1:${port}`,
    child,
    stop: async () => {
      if (child.exitCode !== null || child.signalCode !== null) return;
      child.kill('SIGTERM');
      await once(child, 'exit');
    },
  };
}
