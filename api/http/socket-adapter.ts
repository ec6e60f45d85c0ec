import type { IncomingMessage } from 'node:http';
import type { INestApplicationContext } from '@nestjs/common';
import { IoAdapter } from '@nestjs/platform-socket.io';
import { createAdapter } from '@socket.io/redis-streams-adapter';
import { createClient } from 'redis';
import type { Server, ServerOptions } from 'socket.io';
import type { Config } from '../config/config.ts';
import type { Log } from './log.ts';
import { isOwnOrigin } from './origin.ts';

type Redis = ReturnType<typeof createClient>;

/** Sockets from our own pages only, and one room over several processes where there is a Redis. */
export class SocketAdapter extends IoAdapter {
  private redis: Redis | null = null;

  constructor(
    app: INestApplicationContext,
    private readonly config: Config,
    private readonly log: Log,
  ) {
    super(app);
  }

  /** Connects to Redis where the configuration names one. **Errors** rejects where it cannot be reached. */
  async connect(): Promise<void> {
    if (this.config.redisUrl === null) return;
    const client: Redis = createClient({ url: this.config.redisUrl });
    client.on('error', (error: unknown) => this.log.error({ err: error }, 'redis failed'));
    await client.connect();
    this.redis = client;
  }

  override createIOServer(port: number, options?: ServerOptions): Server {
    const allowRequest = (
      request: IncomingMessage,
      answer: (refusal: string | null, isAllowed: boolean) => void,
    ): void => {
      const isOwn = isOwnOrigin(request.headers, this.config.origins);
      answer(isOwn ? null : 'origin-refused', isOwn);
    };
    const adapter = this.redis === null ? {} : { adapter: createAdapter(this.redis) };
    return super.createIOServer(port, { ...options, allowRequest, ...adapter } as ServerOptions);
  }

  override async dispose(): Promise<void> {
    await super.dispose();
    this.redis?.destroy();
  }
}
