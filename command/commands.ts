import type { Command } from './command.ts';
import { fingering } from './commands/fingering.ts';
import { inspect } from './commands/inspect.ts';
import { render } from './commands/render.ts';
import { split } from './commands/split.ts';
import { timeline } from './commands/timeline.ts';
import { write } from './commands/write.ts';

/** Every command, in the order in which one needs them. */
export const commands: readonly Command[] = [inspect, split, fingering, write, timeline, render];
