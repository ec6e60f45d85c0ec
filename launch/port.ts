import { createServer } from 'node:net';
import { StartFailure } from './failure.ts';

/** Makes sure that nobody listens on the port yet. **Errors** `StartFailure` that says who cannot and what to do. */
export async function refuseTakenPort(host: string, port: number): Promise<void> {
  const probe = createServer();
  try {
    await new Promise<void>((resolve, reject) => probe.once('error', reject).listen(port, host, resolve));
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === 'EADDRINUSE')
      throw new StartFailure(
        `Port ${port} is taken by another program. Set PORT to a free one, for example PORT=${port + 1} npm start.`,
      );
    if (code === 'EACCES')
      throw new StartFailure(`Port ${port} may not be used by this user. Set PORT to one above 1023.`);
    throw new StartFailure(`Heddle cannot listen on ${host}:${port} (${message}).`);
  }
  await new Promise<void>((resolve) => probe.close(() => resolve()));
}
