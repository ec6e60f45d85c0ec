import { Inject, Injectable } from '@nestjs/common';
import { Clock } from '../clock/clock.ts';
import type { Config } from '../config/config.ts';
import { CONFIG } from '../config/config.module.ts';

/** Writes links that work once or for a while, and holds the clock that they run by. */
@Injectable()
export class LinkWriter {
  constructor(
    readonly clock: Clock,
    @Inject(CONFIG) private readonly config: Config,
  ) {}

  to(path: `/${string}`): string {
    return `${this.config.origins[0]}${path}`;
  }
}
