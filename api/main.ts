import { readConfig, type Config } from './config/config.ts';
import { createApp } from './create-app.ts';
import { plainStartFailure } from './start-failure.ts';

async function start(): Promise<void> {
  let config: Config | null = null;
  try {
    config = readConfig(process.env);
    const app = await createApp(config);
    app.enableShutdownHooks(['SIGTERM', 'SIGINT']);
    await app.listen(config.port, config.host);
    process.stdout.write(`Heddle listens on ${await app.getUrl()}\n`);
  } catch (error) {
    const trace = error instanceof Error ? (error.stack ?? error.message) : String(error);
    process.stderr.write(`${plainStartFailure(error, config) ?? `Heddle could not start: ${trace}`}\n`);
    process.exit(1);
  }
}

await start();
