import { thing } from '../command/thing.ts';

export const told = thing;
