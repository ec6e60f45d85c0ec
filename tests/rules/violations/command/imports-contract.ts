import { thing } from '../contract/thing.ts';

export const more = thing;
