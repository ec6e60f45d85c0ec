import { thing } from '../contract/thing.ts';

export const other = thing;
